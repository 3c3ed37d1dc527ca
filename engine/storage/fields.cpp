#include "engine/storage/fields.hpp"

namespace dullcast::storage::result_format {

Fields<simulation::HistoryRow> history_fields() {
  using R = simulation::HistoryRow;
  return since_minor<R>(
      1,
      {
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
          {"table_temperature", "K", "temperature of the diamond table by the contact",
           &R::table_temperature},
          {"carbide_temperature", "K", "temperature of the carbide behind the contact",
           &R::carbide_temperature},
          {"worn_height", "m", "worn height of each cutter, measured in its face", &R::worn_height},
          {"flat_area", "m2", "area of the wear flat, diamond and carbide", &R::flat_area},
          {"heat_damage", "1", "heat damage of the diamond table; 1 is a ruined table", &R::heat_damage},
      },
      {
          {"rock_temperature", "K", "temperature of the warm skin of the hole bottom", &R::rock_temperature},
          {"water_share", "1", "water at the hole bottom over its full amount", &R::water_share},
          {"solids_fraction", "1", "volume share of cuttings in the junk slots", &R::solids_fraction},
          {"plug_height", "m", "height of packed cuttings over the junk slots", &R::plug_height},
          {"flow_past_bit", "m3 s-1", "flow that passes the bit; less than the pump's when slots pack",
           &R::flow_past_bit},
          {"bit_pressure_drop", "Pa", "pressure drop over ports and junk slots", &R::bit_pressure_drop},
          {"lateral_force", "N", "imbalance of the cutting forces, carried by the gauge", &R::lateral_force},
          {"eroded", "m", "depth eroded from blades and pockets", &R::eroded},
          {"blade_wear", "m", "height rubbed off the blades", &R::blade_wear},
          {"pad_wear", "m", "height rubbed off the gauge pads", &R::pad_wear},
          {"gauge_loss", "m", "hole diameter lost to a worn gauge", &R::gauge_loss},
          {"chip_hazard", "1",
           "integral of the chip hazard since each edge was new; chance of a chip 1 - exp(-it)",
           &R::chip_hazard},
          {"film", "1", "1 where a film of steam covers the diamond, else 0", &R::film},
      });
}

Fields<simulation::LayerPassage> layer_fields() {
  using R = simulation::LayerPassage;
  return since_minor<R>(
      1,
      {
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
      },
      {
          {"chip_hazard", "1", "chip hazard gained by all cutters: the chips to be expected",
           &R::chip_hazard},
          {"greatest_chip_probability", "1", "largest chance of a chip gained by any cutter",
           &R::greatest_chip_probability},
          {"greatest_chip_cutter", "1", "cutter with that chance, counted from 1", &R::greatest_chip_cutter,
           counted_from_one},
          {"greatest_load_share", "1",
           "largest load over median strength of any pocket, diamond bond or blade", &R::greatest_load_share},
          {"mean_solids_fraction", "1",
           "mean volume share of cuttings in the junk slots over the rotating time",
           &R::mean_solids_fraction},
          {"lifted_share", "1", "least mass share of the cuttings that the uphole flow lifts",
           &R::lifted_share},
          {"balling_risk", "1", "largest risk of balling, 0 to 1", &R::balling_risk},
          {"time_in_film", "s", "longest time of any cutter under a film of steam", &R::time_in_film},
      });
}

Fields<simulation::HoleSummary> hole_fields() {
  using R = simulation::HoleSummary;
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

Fields<simulation::Event> event_fields() {
  using R = simulation::Event;
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

Fields<simulation::RunOutcome> outcome_fields() {
  using R = simulation::RunOutcome;
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

Fields<simulation::BitCondition> condition_fields() {
  using R = simulation::BitCondition;
  return since_minor<R>(
      1,
      {
          {"worn_height", "m", "worn height of each cutter, measured in its face", &R::worn_height},
          {"heat_damage", "1", "heat damage of the diamond table; 1 is a ruined table", &R::heat_damage},
          {"inner_dull_grade", "1",
           "dull grade 0 to 8 of the inner two thirds of the radius; NaN: no cutter there",
           &R::inner_dull_grade},
          {"outer_dull_grade", "1",
           "dull grade 0 to 8 of the outer third of the radius; NaN: no cutter there", &R::outer_dull_grade},
      },
      {
          {"chip_hazard", "1",
           "integral of the chip hazard since each edge was new; chance of a chip 1 - exp(-it)",
           &R::chip_hazard},
          {"chips", "1",
           "chips of each cutter so far: 1 where it was chipped when the run began, and those drawn",
           &R::chips},
          {"lost", "1", "1 where the cutter is gone, else 0", &R::lost},
          {"table_gone", "1", "1 where the diamond table of the cutter is gone, else 0", &R::table_gone},
          {"seat_load", "1", "largest load over median strength that each pocket has borne", &R::pocket_load},
          {"bond_load", "1",
           "largest load over median strength that each bond of diamond and carbide has borne",
           &R::bond_load},
          {"blade_load", "1", "largest load over median strength that any blade has borne", &R::blade_load},
          {"eroded", "m", "depth eroded from blades and pockets", &R::eroded},
          {"blade_wear", "m", "height rubbed off the blades", &R::blade_wear},
          {"pad_wear", "m", "height rubbed off the gauge pads", &R::pad_wear},
          {"gauge_loss", "m", "hole diameter lost to a worn gauge", &R::gauge_loss},
      });
}

Fields<simulation::Milestone> milestone_fields() {
  using R = simulation::Milestone;
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

Fields<simulation::RuleUse> rule_fields() {
  using R = simulation::RuleUse;
  return {
      {"name", "", "name of the rule", &R::rule},
      {"used", "1", "share of the rule's allowance used; 1 is due", &R::used},
  };
}

Fields<simulation::HottestMoment> hottest_fields() {
  using R = simulation::HottestMoment;
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

Fields<simulation::LifeEnd> life_fields() {
  using R = simulation::LifeEnd;
  return since_minor<R>(
      4,
      {
          {"end", "", "low, central or high life", &R::end},
          {"due", "1", "1: rework falls due; 0: not within the run, whose end the rest then tells", &R::due},
          {"hole", "1", "hole, counted from 1", &R::hole, counted_from_one},
          {"footage", "m", "length drilled in all holes", &R::footage},
          {"rotating_time", "s", "time on bottom", &R::rotating_time},
          {"elapsed_time", "s", "time with connections and trips", &R::elapsed_time},
          {"hottest_flat", "K", "highest temperature of any wear flat in the run", &R::hottest_flat},
      },
      {{"draws", "1", "draws of chance and numbers of which these are quantiles; 0: numbers alone are moved",
        &R::draws},
       {"ended_by", "", "how that run ended, as in outcome", &R::ended_by},
       {"holes_finished", "1", "holes finished in it", &R::holes_finished}});
}

const std::vector<simulation::EventKind>& all_event_kinds() {
  static const std::vector<simulation::EventKind> kinds = {simulation::EventKind::layer_entered,
                                                           simulation::EventKind::hole_finished,
                                                           simulation::EventKind::rework_due,
                                                           simulation::EventKind::beyond_repair,
                                                           simulation::EventKind::table_ruined,
                                                           simulation::EventKind::blade_rubs,
                                                           simulation::EventKind::stopped_drilling,
                                                           simulation::EventKind::fluid_boils,
                                                           simulation::EventKind::string_too_heavy,
                                                           simulation::EventKind::chip,
                                                           simulation::EventKind::cutter_lost,
                                                           simulation::EventKind::table_lost,
                                                           simulation::EventKind::blade_sheared,
                                                           simulation::EventKind::film_forms,
                                                           simulation::EventKind::surface_rewets,
                                                           simulation::EventKind::runs_dry,
                                                           simulation::EventKind::slots_pack,
                                                           simulation::EventKind::slots_clear,
                                                           simulation::EventKind::upset_begins,
                                                           simulation::EventKind::upset_ends,
                                                           simulation::EventKind::quench};
  return kinds;
}

const std::vector<simulation::EndedBy>& all_ends() {
  static const std::vector<simulation::EndedBy> ends = {
      simulation::EndedBy::last_hole, simulation::EndedBy::rework_due, simulation::EndedBy::beyond_repair,
      simulation::EndedBy::stopped_drilling, simulation::EndedBy::blade_sheared};
  return ends;
}

}  // namespace dullcast::storage::result_format
