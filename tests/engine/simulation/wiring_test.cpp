// The assembly: every uncertain number of a scenario, raised by a tenth alone, changes what it should of the
// right-hand side and of what events ask for, and nothing else. The table below is the wiring.
#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <set>
#include <string>

#include "engine/simulation/bench.hpp"
#include "engine/simulation/drawn_strengths.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

using testing::Bench;
using Outputs = std::map<std::string, Eigen::ArrayXd>;

constexpr const char* block_names[] = {
    "table_near", "table_rest", "carbide_near", "carbide_rest", "settled", "body",    "fluid",
    "warm",       "water",      "solids",       "plug",         "worn",    "damage",  "chip_hazard",
    "depth",      "eroded",     "blade_wear",   "pad_wear",     "spent",   "carried", "left_in_rock"};
static_assert(std::size(block_names) == block_rules.size());

/// Rates and what events ask for at one state, by name.
void look(const scenario::Scenario& scenario, const State& x, const std::string& where, Outputs& outputs) {
  Bench bench(scenario);
  const StateLayout& layout = bench.system.layout();
  const State rates = bench.evaluate(x);
  for (std::size_t k = 0; k < block_rules.size(); ++k)
    outputs[std::string(block_names[k]) + where] = layout.of(block_rules[k].block, rates);
  failure::RetentionLoads loads;
  retention_loads(bench.system, x, loads);
  outputs["pocket_load" + where] = loads.pocket;
  outputs["bond_load" + where] = loads.bond;
  outputs["blade_load" + where] = loads.blade;
  const BitModels& bit = bench.models.bit;
  const Evaluation& now = bench.system.evaluation();
  const Eigen::ArrayXd hot = Eigen::ArrayXd::Constant(layout.cutters, 800.0);
  Eigen::ArrayXd hazard = Eigen::ArrayXd::Zero(layout.cutters);
  const failure::EdgeStates edges{layout.worn(x), hot, layout.damage(x), bench.system.lost()};
  failure::add_quench_hazards(bit.edges, edges, 290.0, now.cooling.convection, hazard);
  outputs["quench" + where] = hazard;
  hazard.setZero();
  failure::add_boundary_hazards(bit.edges, edges, now.edge_cuts(), 150e6, now.forces.balance.depth_of_cut,
                                hazard);
  outputs["boundary" + where] = hazard;
  hazard.setZero();
  failure::add_touch_down_hazards(bit.edges, edges, now.edge_cuts(), bench.system.interval().edge_ground,
                                  hazard);
  outputs["touch_down" + where] = hazard;
  outputs["chip_height" + where] =
      Eigen::ArrayXd::Constant(1, failure::chip_height(bit.edges.of(0).chips, bit.bit.shape(0), 2e-3));
  const auto strengths = retention_strengths({true, 7}, bit.retention);
  outputs["drawn_strengths" + where] = strengths.pocket;
  outputs["drawn_blades" + where] = strengths.blade;
}

/// A worn, hot bit that drills; the same half buried in settled cuttings in a hole without flow, half boiled
/// dry a little below the standing water; with packed slots and a plug; nearly dry; and burning.
Outputs all_outputs(scenario::Scenario scenario) {
  Outputs outputs;
  scenario::Layer& ground = scenario.column.layers[0];
  ground.excess_pressure = 2e6;
  scenario.bit.layout.shapes.front().leach_depth = 1.5e-3;
  scenario.bit.layout.back_rake(0) = 0.6;  // psi stands at its least there
  scenario.bit.build.port_area = 3e-4;
  scenario.pump_pressure_limit = 1e5;
  scenario.bit.build.port_diameter = 10e-3;
  const StateLayout layout(scenario.bit.layout.count());
  State x = testing::resting_state(layout, 320.0, 1.0);
  layout.parts(x).col(thermal::table_near) = 1000.0;
  layout.parts(x).col(thermal::table_rest) = 800.0;
  layout.parts(x).col(thermal::carbide_near) = 750.0;
  layout.parts(x).col(thermal::carbide_rest) = 680.0;
  layout.settled(x) = 950.0;
  layout.worn(x) = 1.2e-3;
  layout.damage(x) = 0.3;
  x(layout.body()) = 330.0;
  x(layout.warm()) = 350.0;
  x(layout.solids()) = 0.05;
  x(layout.pad_wear()) = 2e-4;
  x(layout.eroded()) = 1e-4;
  look(scenario, x, "", outputs);
  // So hot that rock softens under the flats.
  State burning = x;
  layout.parts(burning).col(thermal::table_near) = 1250.0;
  look(scenario, burning, " burning", outputs);
  scenario::Scenario dry = scenario;
  dry.plan[0].flow = 0.0;
  dry.column.water_level = 0.9;
  x(layout.fluid()) = 372.9;
  x(layout.water()) = 0.3;
  look(dry, x, " settled", outputs);
  x(layout.solids()) = 0.45;
  x(layout.plug()) = 0.3;
  look(dry, x, " wet", outputs);
  // Bare of water but for a trace hotter than it can be; surfaces between nucleate boiling and a film.
  x(layout.fluid()) = 374.5;
  x(layout.water()) = 0.12;
  layout.parts(x).col(thermal::table_near) = 395.0;
  layout.parts(x).col(thermal::table_rest) = 390.0;
  layout.parts(x).col(thermal::carbide_near) = 460.0;
  layout.parts(x).col(thermal::carbide_rest) = 440.0;
  x(layout.pad_wear()) = 1.5e-3;
  look(dry, x, " dry", outputs);
  return outputs;
}

/// Which outputs differ, without where they were looked at.
std::set<std::string> changed(const Outputs& before, const Outputs& after) {
  std::set<std::string> names;
  for (const auto& [name, values] : before) {
    if (((values - after.at(name)).abs() > 1e-9 * values.abs()).any())
      names.insert(name.substr(0, name.find(' ')));
  }
  return names;
}

std::string words(const std::set<std::string>& names) {
  std::string text;
  for (const std::string& name : names) text += (text.empty() ? "" : " ") + name;
  return text;
}

scenario::Scenario wired_scenario() {
  scenario::Scenario scenario = testing::short_scenario();
  scenario::RockRecord& rock = scenario.column.layers[0].rock;
  rock.cerchar_abrasivity.central = 2.0;
  rock.inclusion_share.central = 0.1;
  rock.inclusion_size.central = 4e-3;
  rock.inclusion_strength.central = 150e6;
  rock.inclusion_abrasivity.central = 3.0;
  scenario.column.layers.resize(1);
  // Between what cool flats leave to their carbide and what hot ones do: both laws of it act.
  scenario.numbers.carbide_load_share.central = 0.02;
  return scenario;
}

/// What a number changes. A number that changes nothing here says where it acts.
struct Wire {
  const char* number;
  const char* changes;
};
// The bearing ratio acts only where blades bear (blade_rubbing_test.cpp), stickiness only in what is recorded
// (cleaning_run_test.cpp), the suspending transport and the turns of renewal only on weak flow
// (settling_test.cpp, bottom_cooling_test.cpp).
constexpr Wire wires[] = {
    {"drilling_efficiency",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"flat_friction",
     "blade_load body bond_load carried chip_hazard damage fluid pad_wear pocket_load settled spent "
     "table_near "
     "warm water worn"},
    {"blade_friction", "body carried fluid spent water"},
    {"blade_bearing_ratio", ""},
    {"land_reference",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"psi_at_reference",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"psi_slope",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"psi_least",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"land_bevel_width",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"land_bevel_angle",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"land_back_rake",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"edge_radius",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"rate_exponent",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"rate_speed",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"rate_depth",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"chip_friction_speed_share",
     "carried chip_hazard damage fluid settled spent table_near warm water worn"},
    {"crushed_heat_share", "carried chip_hazard damage fluid settled spent table_near warm water worn"},
    {"rock_softens", "chip_hazard damage fluid settled spent table_near warm worn"},
    {"rock_melts", "chip_hazard damage fluid settled spent table_near warm worn"},
    {"abrasion_coefficient", "worn"},
    {"abrasivity_exponent", "pad_wear worn"},
    {"bit_to_bit_wear", "worn"},
    {"cutting_wear_share", "worn"},
    {"carbide_wear_ratio", "worn"},
    {"carbide_load_share",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"acceleration_temperature", "worn"},
    {"acceleration_scale", "worn"},
    {"leached_acceleration_temperature", "worn"},
    {"damage_seconds_at_750", "damage"},
    {"damage_seconds_at_700", "damage"},
    {"leached_limit", "damage"},
    {"spreading_edge_factor", "carried chip_hazard damage fluid settled spent table_near warm water worn"},
    {"pocket_conductance", "body carbide_rest table_rest"},
    {"exposed_share", "body carbide_near carbide_rest carried fluid pocket_load table_near table_rest water"},
    {"junk_slot_share",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load quench settled solids spent table_near table_rest touch_down "
     "warm water worn"},
    {"body_wetted_share", "body carried fluid water"},
    {"bottom_hole_conductance", "carried fluid water"},
    {"settling_time", "settled"},
    {"warm_skin_depth", "left_in_rock warm"},
    {"dry_capacity_share", "fluid"},
    {"wall_speed_share", "body fluid"},
    {"jet_path_share", "carbide_near carbide_rest fluid quench table_near table_rest warm"},
    {"weibull_modulus", "boundary chip_hazard quench touch_down"},
    {"edge_hot_share", "boundary chip_hazard quench touch_down"},
    {"edge_damaged_share", "boundary chip_hazard quench touch_down"},
    {"roughness_impacts", "chip_hazard"},
    {"roughness_overload", "blade_load bond_load pocket_load"},
    {"load_variation", "chip_hazard touch_down"},
    {"brittle_strength", "chip_hazard touch_down"},
    {"bottom_unevenness", "chip_hazard touch_down"},
    {"stone_protrusion", "blade_load bond_load chip_hazard pocket_load"},
    {"touch_down_overload", "touch_down"},
    {"impact_impedance", "blade_load bond_load boundary chip_hazard pocket_load touch_down"},
    {"chip_size_share", "chip_height"},
    {"shock_share", "quench"},
    {"boundary_undulation", "boundary"},
    {"table_modulus", "quench"},
    {"table_expansion", "quench"},
    {"table_poisson", "quench"},
    {"braze_strength", "pocket_load"},
    {"braze_softening", "pocket_load"},
    {"braze_solidus", "pocket_load"},
    {"bond_mismatch", "bond_load"},
    {"bond_neutral_temperature", "bond_load"},
    {"port_discharge",
     "body carbide_near carbide_rest carried eroded fluid quench solids table_near table_rest warm"},
    {"cuttings_spread", "solids"},
    {"packed_fraction",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth fluid "
     "left_in_rock pad_wear pocket_load quench settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"packed_share",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth fluid "
     "left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm water "
     "worn"},
    {"slot_height",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth fluid "
     "left_in_rock pad_wear pocket_load quench settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"suspending_transport", ""},
    {"burying_height",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth fluid "
     "left_in_rock pad_wear pocket_load quench settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"bed_grain", "carbide_near carbide_rest carried fluid table_near table_rest water"},
    {"water_height", "body carbide_near carbide_rest carried fluid table_near table_rest warm water"},
    {"boiling_surface_factor", "carbide_near carbide_rest carried fluid table_near table_rest water"},
    {"steam_convection", "body carried fluid warm water"},
    {"fall_back_time", "fluid water"},
    {"flash_time", "carried fluid water"},
    {"level_band", "fluid water"},
    {"dry_out_factor", "carbide_near carbide_rest carried fluid table_near table_rest water"},
    {"packed_pores_loss", "fluid water"},
    {"packed_void_share",
     "body carbide_near carbide_rest carried fluid quench table_near table_rest warm water"},
    {"renewal_turns", ""},
    {"still_expansion",
     "body carbide_near carbide_rest carried fluid quench table_near table_rest warm water"},
    {"erosion_coefficient", "eroded"},
    {"rubbing_coefficient", "pad_wear"},
    {"pad_seating", "body carried fluid pad_wear spent water"},
    {"grade test grade: wear_resistance", "worn"},
    {"grade test grade: table_conductivity",
     "carbide_near carbide_rest carried chip_hazard damage fluid quench settled spent table_near table_rest "
     "warm water worn"},
    {"grade test grade: table_density", "table_near table_rest"},
    {"grade test grade: carbide_conductivity",
     "carbide_near carbide_rest carried chip_hazard damage fluid settled spent table_near table_rest warm "
     "water worn"},
    {"grade test grade: carbide_density", "carbide_near carbide_rest"},
    {"grade test grade: carbide_heat_capacity", "carbide_near carbide_rest"},
    {"grade test grade: edge_strength", "boundary chip_hazard quench touch_down"},
    {"grade test grade: bond_strength", "bond_load"},
    {"lot sound: edge_share", "boundary chip_hazard quench touch_down"},
    {"lot sound: bond_share", "bond_load"},
    {"lot sound: braze_share", "pocket_load"},
    {"lot sound: strength_spread", "drawn_strengths"},
    {"body steel: conductivity", "body carbide_rest carried fluid table_rest water"},
    {"body steel: density", "body"},
    {"body steel: heat_capacity", "body"},
    {"body steel: volume_share", "body"},
    {"body steel: erosion_resistance", "eroded"},
    {"body steel: rubbing_resistance", "pad_wear"},
    {"body steel: strength", "blade_load"},
    {"body steel: strength_spread", "drawn_blades"},
    {"fluid water: density",
     "body carbide_near carbide_rest carried eroded fluid quench solids table_near table_rest warm water"},
    {"fluid water: viscosity",
     "body carbide_near carbide_rest carried fluid quench solids table_near table_rest warm water"},
    {"fluid water: conductivity",
     "body carbide_near carbide_rest carried fluid quench table_near table_rest warm water"},
    {"fluid water: heat_capacity",
     "body carbide_near carbide_rest carried fluid quench table_near table_rest warm water"},
    {"rock limestone: unconfined_strength",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"rock limestone: friction_angle",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"rock limestone: youngs_modulus",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"rock limestone: poissons_ratio",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"rock limestone: cerchar_abrasivity", "pad_wear worn"},
    {"rock limestone: conductivity",
     "body carbide_near carbide_rest carried chip_hazard damage fluid left_in_rock quench settled spent "
     "table_near table_rest warm water worn"},
    {"rock limestone: density",
     "body carried chip_hazard damage eroded fluid left_in_rock settled solids spent table_near touch_down "
     "warm water worn"},
    {"rock limestone: heat_capacity",
     "body carried chip_hazard damage fluid left_in_rock settled spent table_near warm water worn"},
    {"rock limestone: contact_strength_ratio",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"rock limestone: inclusion_share",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"rock limestone: inclusion_size", "blade_load bond_load chip_hazard pocket_load"},
    {"rock limestone: inclusion_strength",
     "blade_load body bond_load boundary carbide_near carbide_rest carried chip_hazard damage depth eroded "
     "fluid left_in_rock pad_wear pocket_load settled solids spent table_near table_rest touch_down warm "
     "water worn"},
    {"rock limestone: inclusion_abrasivity", "pad_wear worn"},
    {"rock limestone: stickiness", ""},
};

TEST(Wiring, EveryNumberChangesWhatItShouldAndNothingElse) {
  const scenario::Scenario scenario = wired_scenario();
  const Outputs before = all_outputs(scenario);
  std::vector<std::string> numbers;
  scenario::Scenario asked = scenario;
  scenario::for_each_number(asked,
                            [&](const std::string& name, scenario::Quantity&) { numbers.push_back(name); });
  ASSERT_EQ(numbers.size(), std::size(wires));
  for (std::size_t k = 0; k < numbers.size(); ++k) {
    EXPECT_EQ(numbers[k], wires[k].number);
    scenario::Scenario raised = scenario;
    scenario::for_each_number(raised, [&](const std::string& name, scenario::Quantity& quantity) {
      if (name == numbers[k]) quantity.central = quantity.central == 0.0 ? 0.01 : 1.1 * quantity.central;
    });
    EXPECT_EQ(words(changed(before, all_outputs(raised))), wires[k].changes) << numbers[k];
  }
}

// In which direction some of them act on the wear of a cutter, the heat of the body and the rate of
// penetration.
TEST(Wiring, NumbersActInTheirDirection) {
  const scenario::Scenario scenario = wired_scenario();
  const Outputs before = all_outputs(scenario);
  struct Push {
    const char* number;
    const char* output;
    int sign;
  };
  for (const Push& push : {Push{"abrasion_coefficient", "worn", 1},
                           Push{"grade test grade: wear_resistance", "worn", -1},
                           Push{"rock limestone: cerchar_abrasivity", "worn", 1},
                           Push{"acceleration_temperature", "worn", -1},
                           Push{"leached_acceleration_temperature", "worn", -1},
                           Push{"acceleration_scale", "worn", -1},
                           Push{"damage_seconds_at_750", "damage", -1},
                           Push{"drilling_efficiency", "depth", 1},
                           Push{"rock limestone: unconfined_strength", "depth", -1},
                           Push{"packed_share", "depth wet", 1},
                           Push{"body steel: rubbing_resistance", "pad_wear", -1},
                           Push{"rubbing_coefficient", "pad_wear", 1},
                           Push{"body steel: erosion_resistance", "eroded", -1},
                           Push{"erosion_coefficient", "eroded", 1},
                           Push{"grade test grade: edge_strength", "chip_hazard", -1},
                           Push{"roughness_impacts", "chip_hazard", 1},
                           Push{"braze_strength", "pocket_load", -1},
                           Push{"body steel: strength", "blade_load", -1},
                           Push{"bond_mismatch", "bond_load", 1},
                           Push{"table_modulus", "quench", 1},
                           Push{"shock_share", "quench", 1},
                           Push{"fall_back_time", "water dry", -1},
                           Push{"packed_pores_loss", "water wet", -1}}) {
    scenario::Scenario raised = scenario;
    scenario::for_each_number(raised, [&](const std::string& name, scenario::Quantity& quantity) {
      // A share close to 1 must stay below it.
      if (name == push.number)
        quantity.central *= quantity.central > 0.95 && quantity.central < 1.0 ? 1.005 : 1.1;
    });
    const Outputs after = all_outputs(raised);
    EXPECT_GT(push.sign * (after.at(push.output).sum() - before.at(push.output).sum()), 0.0)
        << push.number << " on " << push.output;
  }
}

}  // namespace
}  // namespace dullcast::simulation
