#include "engine/learning/cause_hypotheses.hpp"

#include <algorithm>

#include "engine/scenario/operating_weight.hpp"
#include "engine/scenario/stone_abrasivity.hpp"

namespace dullcast::learning {
namespace {

using scenario::Scenario;

void multiply(scenario::Quantity& quantity, double factor) {
  for (double* value : {&quantity.low, &quantity.central, &quantity.high}) *value *= factor;
}

scenario::Quantity given(double value) {
  return {value, value, value, "asm", "stones as a possible cause"};
}

void less_flow(Scenario& run, double share) {
  for (scenario::OperatingInterval& interval : run.plan) {
    interval.flow *= share;
    interval.mist_water *= share;
  }
}

void pump_off(Scenario& run, double seconds) {
  const auto& layers = run.column.layers;
  const auto hardest =
      std::max_element(layers.begin(), layers.end(), [](const scenario::Layer& a, const scenario::Layer& b) {
        return a.rock.unconfined_strength.central < b.rock.unconfined_strength.central;
      });
  scenario::Upset upset;
  upset.from = 0.5 * (hardest->top + hardest->bottom);
  upset.hole = run.repeat.holes - 1;
  upset.lasts = seconds;
  upset.flow = 0.0;
  run.upsets.push_back(upset);
}

void put_stones(scenario::RockRecord& rock, double share) {
  rock.inclusion_share = given(std::max(share, rock.inclusion_share.central));
  rock.inclusion_size = given(std::max(0.03, rock.inclusion_size.central));
  rock.inclusion_strength = given(std::max(180e6, rock.inclusion_strength.central));
  if (!(rock.inclusion_abrasivity.central > 0.0)) scenario::fill_stone_abrasivity(rock);
}

void stones_in_softest(Scenario& run, double share) {
  auto& layers = run.column.layers;
  const auto softest =
      std::min_element(layers.begin(), layers.end(), [](const scenario::Layer& a, const scenario::Layer& b) {
        return a.rock.unconfined_strength.central < b.rock.unconfined_strength.central;
      });
  put_stones(softest->rock, share);
}

void stones_in_all(Scenario& run, double share) {
  for (scenario::Layer& layer : run.column.layers) put_stones(layer.rock, share);
}

void more_weight(Scenario& run, double factor) {
  const auto string = scenario::drill_string_of(run.string);
  for (scenario::OperatingInterval& interval : run.plan) {
    if (interval.weight_on_bit) {
      *interval.weight_on_bit *= factor;
    } else {
      const double density = scenario::fluid_at_bit(run.fluid, interval, run.inlet_temperature).fluid.density;
      const double told =
          scenario::weight_on_bit(interval, string, density, 0.5 * (interval.from + interval.to));
      interval.pull_down += (factor - 1.0) * std::max(0.0, told);
    }
    if (interval.feed_limit) *interval.feed_limit *= factor;
  }
}

void weaker_lot(Scenario& run, double share) {
  multiply(run.bit.lot.edge_share, share);
  multiply(run.bit.lot.bond_share, share);
  multiply(run.bit.lot.braze_share, share);
}

void poor_cleaning(Scenario& run, double flow, double efficiency) {
  less_flow(run, flow);
  multiply(run.numbers.drilling_efficiency, efficiency);
}

}  // namespace

std::vector<Cause> usual_causes() {
  constexpr double third = 1.0 / 3.0;
  return {
      {"plain", "plain use", 50.0, {{"as told", 1.0, [](Scenario&) {}}}},
      {"heat",
       "heat",
       15.0,
       {{"the pump off for 5 minutes on bottom", third, [](Scenario& run) { pump_off(run, 300.0); }},
        {"the pump off for 15 minutes on bottom", third, [](Scenario& run) { pump_off(run, 900.0); }},
        {"the pump off for 45 minutes on bottom", third, [](Scenario& run) { pump_off(run, 2700.0); }}}},
      {"gravel",
       "gravel",
       10.0,
       {{"stones in a quarter of the softest layer", 0.5,
         [](Scenario& run) { stones_in_softest(run, 0.25); }},
        {"stones in a twentieth of every layer", 0.5, [](Scenario& run) { stones_in_all(run, 0.05); }}}},
      {"weight",
       "overweight",
       10.0,
       {{"1.5 times the weight told", 0.5, [](Scenario& run) { more_weight(run, 1.5); }},
        {"twice the weight told", 0.5, [](Scenario& run) { more_weight(run, 2.0); }}}},
      {"lot",
       "a poor lot",
       10.0,
       {{"edges, bonds and brazes 0.7 as strong", 0.5, [](Scenario& run) { weaker_lot(run, 0.7); }},
        {"half as strong", 0.5, [](Scenario& run) { weaker_lot(run, 0.5); }}}},
      {"cleaning",
       "poor cleaning",
       5.0,
       {{"0.7 of the flow, cuttings ground again", 0.5, [](Scenario& run) { poor_cleaning(run, 0.7, 0.6); }},
        {"half of the flow, slots packing", 0.5, [](Scenario& run) { poor_cleaning(run, 0.5, 0.4); }}}},
  };
}

}  // namespace dullcast::learning
