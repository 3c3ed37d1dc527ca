#include "engine/results/fields.hpp"

namespace dullcast::result_format {

Fields<HistoryRow> history_fields() {
  using R = HistoryRow;
  return {
      {"time", "s", "time since the run began: drilling, connections and trips", &R::time},
      {"rotating_time", "s", "time on bottom since the run began", &R::rotating_time},
      {"hole", "1", "hole, counted from 1", &R::hole, counted_from_one},
      {"layer", "1", "layer, counted from 1 at the surface", &R::layer, counted_from_one},
      {"depth", "m", "depth in this hole", &R::depth},
      {"footage", "m", "length drilled in all holes", &R::footage},
      {"weight", "N", "weight on bit", &R::weight},
      {"rotary_speed", "revolution s-1", "rotary speed", &R::rotary_speed},
      {"flow", "m3 s-1", "flow of drilling fluid (a gas: as free air)", &R::flow},
      {"depth_of_cut", "m", "depth of cut in one revolution", &R::depth_of_cut},
      {"rate_of_penetration", "m s-1", "rate of penetration", &R::rate_of_penetration},
      {"torque", "N m", "torque on bit", &R::torque},
      {"blade_weight", "N", "weight carried by rubbing blades", &R::blade_weight},
      {"energy", "J", "energy spent at the bit since the run began", &R::energy},
      {"fluid_temperature", "K", "temperature of the fluid at the hole bottom", &R::fluid_temperature},
      {"body_temperature", "K", "temperature of the bit body", &R::body_temperature},
      {"area_of_cut", "m2", "area of cut of each cutter", &R::area_of_cut},
      {"tangential_force", "N", "force on each cutter against its travel", &R::tangential_force},
      {"normal_force", "N", "force on each cutter normal to the hole bottom", &R::normal_force},
      {"contact_force", "N", "part of the normal force that rubs", &R::contact_force},
      {"flat_temperature", "K", "temperature of the wear flat of each cutter", &R::flat_temperature},
      {"table_temperature", "K", "mean temperature of the diamond table", &R::table_temperature},
      {"carbide_temperature", "K", "mean temperature of the carbide", &R::carbide_temperature},
      {"worn_height", "m", "worn height of each cutter, measured in its face", &R::worn_height},
      {"flat_area", "m2", "area of the wear flat, diamond and carbide", &R::flat_area},
      {"heat_damage", "1", "heat damage of the diamond table; 1 is a ruined table", &R::heat_damage},
  };
}

Fields<LayerPassage> layer_fields() {
  using R = LayerPassage;
  return {
      {"hole", "1", "hole, counted from 1", &R::hole, counted_from_one},
      {"layer", "1", "layer, counted from 1 at the surface", &R::layer, counted_from_one},
      {"rock", "", "name of the rock", &R::rock},
      {"top", "m", "depth where the passage began", &R::top},
      {"bottom", "m", "depth where the passage ended", &R::bottom},
      {"rotating_time", "s", "time on bottom in the layer", &R::rotating_time},
      {"mean_rate_of_penetration", "m s-1", "mean rate of penetration", &R::mean_rate_of_penetration},
      {"mean_weight", "N", "mean weight on bit over the rotating time", &R::mean_weight},
      {"mean_torque", "N m", "mean torque on bit over the rotating time", &R::mean_torque},
      {"energy", "J", "energy spent at the bit in the layer", &R::energy},
      {"hottest_flat", "K", "highest temperature of any wear flat", &R::hottest_flat},
      {"hottest_cutter", "1", "cutter that was hottest, counted from 1", &R::hottest_cutter,
       counted_from_one},
      {"greatest_wear_gain", "m", "largest gain in worn height of any cutter", &R::greatest_wear_gain},
      {"greatest_wear_cutter", "1", "cutter that wore most, counted from 1", &R::greatest_wear_cutter,
       counted_from_one},
  };
}

Fields<HoleSummary> hole_fields() {
  using R = HoleSummary;
  return {
      {"hole", "1", "hole, counted from 1", &R::hole, counted_from_one},
      {"depth_reached", "m", "depth reached", &R::depth_reached},
      {"rotating_time", "s", "time on bottom in the hole", &R::rotating_time},
      {"elapsed_time", "s", "time for the hole with connections and the trip", &R::elapsed_time},
      {"connections", "1", "pipe connections made", &R::connections},
      {"energy", "J", "energy spent at the bit in the hole", &R::energy},
      {"hottest_flat", "K", "highest temperature of any wear flat", &R::hottest_flat},
      {"greatest_worn_height", "m", "largest worn height of any cutter at the end of the hole",
       &R::greatest_worn_height},
      {"inner_dull_grade", "1",
       "dull grade 0 to 8 of the inner two thirds of the radius; NaN: no cutter there", &R::inner_dull_grade},
      {"outer_dull_grade", "1", "dull grade 0 to 8 of the outer third of the radius; NaN: no cutter there",
       &R::outer_dull_grade},
  };
}

Fields<Event> event_fields() {
  using R = Event;
  return {
      {"time", "s", "time since the run began", &R::time},
      {"hole", "1", "hole, counted from 1", &R::hole, counted_from_one},
      {"depth", "m", "depth in this hole", &R::depth},
      {"footage", "m", "length drilled in all holes", &R::footage},
      {"cutter", "1", "cutter, counted from 1; 0 where it is about no one cutter", &R::cutter,
       counted_from_one},
      {"text", "", "what happened, in one sentence", &R::text},
  };
}

Fields<BitRecord> bit_fields() {
  using R = BitRecord;
  return {
      {"name", "", "name of the bit", &R::name},
      {"starting_wear", "m", "worn height of each cutter when the run began", &R::starting_wear},
      {"starting_damage", "1", "heat damage of each cutter when the run began", &R::starting_damage},
  };
}

Fields<BitLayout> layout_fields() {
  using R = BitLayout;
  return {
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
  };
}

Fields<CutterShape> cutter_fields() {
  using R = CutterShape;
  return {
      {"cutter_radius", "m", "radius of a cutter's cylinder", &R::radius},
      {"cutter_length", "m", "length of a cutter, diamond table and carbide together", &R::length},
      {"table_thickness", "m", "thickness of the diamond table", &R::table_thickness},
      {"leach_depth", "m", "depth from the face to which cobalt was removed", &R::leach_depth},
      {"bevel_width", "m", "width of the bevel", &R::bevel_width},
      {"bevel_angle", "radian", "angle of the bevel, measured from the face", &R::bevel_angle},
      {"edge_radius", "m", "radius of the cutting edge", &R::edge_radius},
  };
}

Fields<ReworkRules> rework_rule_fields() {
  using R = ReworkRules;
  return {
      {"worn_height", "m", "rework is due at this worn height of any cutter; NaN: no such rule",
       &R::worn_height},
      {"outer_dull_grade", "1", "rework is due at this outer dull grade; NaN: no such rule",
       &R::outer_dull_grade},
      {"heat_damage", "1", "rework is due at this heat damage of any cutter; NaN: no such rule",
       &R::heat_damage},
      {"speed_share_of_new", "1",
       "rework is due when the rate of penetration over that of the bit when new falls to this; NaN: no such "
       "rule",
       &R::speed_share_of_new},
      {"beyond_repair_share", "1", "worn height over exposure at which the bit is beyond repair",
       &R::beyond_repair_share},
      {"least_progress", "m s-1", "a bit slower than this has stopped drilling", &R::least_progress},
  };
}

Fields<RunOutcome> outcome_fields() {
  using R = RunOutcome;
  return {
      {"holes_finished", "1", "holes finished", &R::holes_finished},
      {"footage", "m", "length drilled in all holes", &R::footage},
      {"rotating_time", "s", "time on bottom", &R::rotating_time},
      {"elapsed_time", "s", "time with connections and trips", &R::elapsed_time},
      {"energy", "J", "energy spent at the bit", &R::energy},
      {"steps", "1", "time steps taken", &R::steps},
      {"refused_steps", "1", "time steps refused by the error control", &R::refused_steps},
      {"right_hand_sides", "1", "evaluations of the right-hand side", &R::right_hand_sides},
      {"energy_residual", "J", "work put in less heat stored, carried off and left in rock",
       &R::energy_residual},
  };
}

Fields<BitCondition> condition_fields() {
  using R = BitCondition;
  return {
      {"worn_height", "m", "worn height of each cutter, measured in its face", &R::worn_height},
      {"heat_damage", "1", "heat damage of the diamond table; 1 is a ruined table", &R::heat_damage},
      {"inner_dull_grade", "1",
       "dull grade 0 to 8 of the inner two thirds of the radius; NaN: no cutter there", &R::inner_dull_grade},
      {"outer_dull_grade", "1", "dull grade 0 to 8 of the outer third of the radius; NaN: no cutter there",
       &R::outer_dull_grade},
  };
}

Fields<Milestone> milestone_fields() {
  using R = Milestone;
  return {
      {"hole", "1", "hole, counted from 1", &R::hole, counted_from_one},
      {"depth", "m", "depth in this hole", &R::depth},
      {"footage", "m", "length drilled in all holes", &R::footage},
      {"rotating_time", "s", "time on bottom since the run began", &R::rotating_time},
      {"elapsed_time", "s", "time since the run began, with connections and trips", &R::elapsed_time},
      {"energy", "J", "energy spent at the bit since the run began", &R::energy},
      {"rule", "", "rule of the scenario that was met", &R::rule},
  };
}

Fields<RuleUse> rule_fields() {
  using R = RuleUse;
  return {
      {"name", "", "name of the rule", &R::rule},
      {"used", "1", "share of the rule's allowance used; 1 is due", &R::used},
  };
}

Fields<HottestMoment> hottest_fields() {
  using R = HottestMoment;
  return {
      {"temperature", "K", "highest temperature of any wear flat in the run", &R::temperature},
      {"cutter", "1", "cutter, counted from 1", &R::cutter, counted_from_one},
      {"hole", "1", "hole, counted from 1", &R::hole, counted_from_one},
      {"layer", "1", "layer, counted from 1 at the surface", &R::layer, counted_from_one},
      {"depth", "m", "depth in that hole", &R::depth},
      {"weight", "N", "weight on bit", &R::weight},
      {"rotary_speed", "revolution s-1", "rotary speed", &R::rotary_speed},
      {"flow", "m3 s-1", "flow of drilling fluid (a gas: as free air)", &R::flow},
      {"depth_of_cut", "m", "depth of cut in one revolution", &R::depth_of_cut},
      {"flat_heat", "W", "friction heat into that cutter's contact", &R::flat_heat},
      {"face_heat", "W", "friction heat into that cutter's face", &R::face_heat},
      {"fluid_temperature", "K", "temperature of the fluid at the hole bottom", &R::fluid_temperature},
  };
}

Fields<LifeEnd> life_fields() {
  using R = LifeEnd;
  return {
      {"end", "", "low, central or high life", &R::end},
      {"due", "1", "1: rework falls due; 0: not within the run, whose end the rest then tells", &R::due},
      {"hole", "1", "hole, counted from 1", &R::hole, counted_from_one},
      {"footage", "m", "length drilled in all holes", &R::footage},
      {"rotating_time", "s", "time on bottom", &R::rotating_time},
      {"elapsed_time", "s", "time with connections and trips", &R::elapsed_time},
      {"hottest_flat", "K", "highest temperature of any wear flat in the run", &R::hottest_flat},
  };
}

const std::vector<EventKind>& all_event_kinds() {
  static const std::vector<EventKind> kinds = {
      EventKind::layer_entered,    EventKind::hole_finished, EventKind::rework_due,
      EventKind::beyond_repair,    EventKind::table_ruined,  EventKind::blade_rubs,
      EventKind::stopped_drilling, EventKind::fluid_boils,   EventKind::string_too_heavy};
  return kinds;
}

const std::vector<EndedBy>& all_ends() {
  static const std::vector<EndedBy> ends = {EndedBy::last_hole, EndedBy::rework_due, EndedBy::beyond_repair,
                                            EndedBy::stopped_drilling};
  return ends;
}

}  // namespace dullcast::result_format
