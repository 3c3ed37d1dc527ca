#include "engine/storage/bit_fields.hpp"

#include <utility>

namespace dullcast::storage::result_format {

Fields<scenario::BitRecord> bit_fields() {
  using R = scenario::BitRecord;
  Fields<R> earlier = since_minor<R>(
      1,
      {
          {"name", "", "name of the bit", &R::name},
          {"starting_wear", "m", "worn height of each cutter when the run began", &R::starting_wear},
          {"starting_damage", "1", "heat damage of each cutter when the run began", &R::starting_damage},
      },
      {
          {"starting_chip_hazard", "1", "chip hazard of each edge when the run began",
           &R::starting_chip_hazard},
          {"starting_lost", "1", "1 where a cutter was missing when the run began, else 0",
           &R::starting_lost},
          {"starting_table_gone", "1", "1 where a diamond table was missing when the run began, else 0",
           &R::starting_table_gone},
          {"starting_erosion", "m", "depth eroded from blades and pockets when the run began",
           &R::starting_erosion},
          {"starting_blade_wear", "m", "height rubbed off the blades when the run began",
           &R::starting_blade_wear},
          {"starting_pad_wear", "m", "height rubbed off the gauge pads when the run began",
           &R::starting_pad_wear},
      });
  return since_minor<R>(4, std::move(earlier),
                        {{"starting_chipped", "1", "1 where an edge had chipped when the run began, else 0",
                          &R::starting_chipped}});
}

Fields<scenario::BitBuild> build_fields() {
  using R = scenario::BitBuild;
  return since_minor<R>(
      1, {},
      {
          {"port_area", "m2", "area of all ports; 0: not known", &R::port_area},
          {"port_diameter", "m", "diameter of one port", &R::port_diameter},
          {"junk_slot_share", "1", "open slot area over hole area; 0: that of the models",
           &R::junk_slot_share},
          {"blade_height", "m", "height of a blade, root to tip", &R::blade_height},
          {"blade_thickness", "m", "thickness of a blade along its travel", &R::blade_thickness},
          {"gauge_pad_length", "m", "length of a gauge pad along the bit axis", &R::gauge_pad_length},
          {"gauge_pad_width", "m", "width of the gauge pad of one blade along the circumference",
           &R::gauge_pad_width},
      });
}

Fields<geometry::BitLayout> layout_fields() {
  using R = geometry::BitLayout;
  return since_minor<R>(
      3,
      {
          {"bit_radius", "m", "half the nominal diameter of the bit", &R::bit_radius},
          {"blades", "1", "number of blades", &R::blades},
          {"radius", "m", "distance of each cutter's tip from the bit axis", &R::radius},
          {"azimuth", "radian", "azimuth of each cutter, clockwise seen from above", &R::azimuth},
          {"depth", "m", "depth of each cutter's tip along the bit axis, positive downward", &R::depth},
          {"back_rake", "radian", "back rake of each cutter", &R::back_rake},
          {"side_rake", "radian", "side rake of each cutter", &R::side_rake},
          {"profile_angle", "radian", "angle of the profile's outward normal against the bit axis",
           &R::profile_angle},
          {"exposure", "m", "height of each cutter's tip over its blade", &R::exposure},
          {"blade", "1", "blade of each cutter, counted from 1", &R::blade, counted_from_one},
      },
      {{"kind", "1", "kind of each cutter (group kinds), counted from 1", &R::kind, counted_from_one}});
}

Fields<geometry::CutterShape> cutter_fields() {
  using R = geometry::CutterShape;
  return since_minor<R>(
      2,
      {
          {"cutter_radius", "m", "radius of a cutter's cylinder", &R::radius},
          {"cutter_length", "m", "length of a cutter, diamond table and carbide together", &R::length},
          {"table_thickness", "m", "thickness of the diamond table", &R::table_thickness},
          {"leach_depth", "m", "depth from the face to which cobalt was removed", &R::leach_depth},
          {"bevel_width", "m", "width of the bevel, seen on the face", &R::bevel_width},
          {"bevel_angle", "radian", "angle of the bevel, measured from the face", &R::bevel_angle},
          {"edge_radius", "m", "radius of the cutting edge", &R::edge_radius},
      },
      {{"leach_side_depth", "m", "depth from the table's side to which cobalt was removed",
        &R::leach_side_depth}});
}

Fields<scenario::ReworkRules> rework_rule_fields() {
  using R = scenario::ReworkRules;
  return since_minor<R>(
      1,
      {
          {"worn_height", "m", "rework is due at this worn height of any cutter; NaN: no such rule",
           &R::worn_height},
          {"outer_dull_grade", "1", "rework is due at this outer dull grade; NaN: no such rule",
           &R::outer_dull_grade},
          {"heat_damage", "1", "rework is due at this heat damage of any cutter; NaN: no such rule",
           &R::heat_damage},
          {"speed_share_of_new", "1",
           "rework is due when the rate of penetration over that of the bit when new falls to this; NaN: no "
           "such "
           "rule",
           &R::speed_share_of_new},
          {"beyond_repair_share", "1", "worn height over exposure at which the bit is beyond repair",
           &R::beyond_repair_share},
          {"least_progress", "m s-1", "a bit slower than this has stopped drilling", &R::least_progress},
      },
      {
          {"chip_probability", "1", "rework is due at this chance of a chip on any cutter; NaN: no such rule",
           &R::chip_probability},
          {"gauge_loss", "m", "rework is due at this loss of hole diameter; NaN: no such rule",
           &R::gauge_loss},
          {"lost_cutters", "1", "rework is due at this number of lost cutters; NaN: no such rule",
           &R::lost_cutters},
      });
}

}  // namespace dullcast::storage::result_format
