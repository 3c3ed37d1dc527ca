// What breaks along the way of a run: edges, seats, bonds, blades.
#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "engine/simulation/drive.hpp"
#include "models/common/constants.hpp"

namespace dullcast::simulation {
namespace {

constexpr double harder_by = 1.2;  // strength over that of the rock above

/// A drop of temperature that is worth telling, K.
constexpr double telling_quench = 50.0;

std::string in_celsius(double T) {
  return std::to_string(std::lround(T - celsius_zero)) + " C";
}

}  // namespace

/// Cold flow that comes back meets what has grown hot meanwhile.
void Drive::quench(const DrillingInterval& before, const DrillingInterval& after) {
  if (!(after.flow_at_bit > 2.0 * before.flow_at_bit)) return;
  const BitModels& bit = models_.bit;
  // Slots that packed meanwhile are flushed in a fraction of a second, before the diamond has cooled much.
  State clear = x_;
  clear(layout().solids()) = clear(layout().plug()) = 0.0;
  const DrillingSystem& now = probe(clear);
  const double inlet = models_.ground.inlet_temperature;
  const auto table = layout().table(x_);
  for (Eigen::Index i = 0; i < layout().cutters; ++i) {
    const double stress =
        failure::quench_stress(bit.chips, table(i), inlet, now.evaluation().convection(i),
                               bit.bit.shape.table_thickness, bit.materials.table_conductivity);
    const failure::CuttingEdge edge{bit.bit.back_rake(i), layout().worn(x_)(i), table(i),
                                    layout().damage(x_)(i)};
    layout().chip_hazard(x_)(i) += failure::quench_hazard(bit.chips, stress, edge);
  }
  Eigen::Index hottest = 0;
  const double drop = table.maxCoeff(&hottest) - inlet;
  if (drop > telling_quench) {
    tell(EventKind::quench, static_cast<int>(hottest),
         "Cold flow meets diamond at " + in_celsius(table(hottest)) + ".");
  }
}

/// A harder layer's top comes and goes under the bit for a while: each edge strikes it once a revolution, at
/// the depth of cut of the softer rock above.
void Drive::meet_harder_rock(const DrillingInterval& before, const DrillingInterval& after) {
  const double harder = after.resistance.specific_energy;
  if (before.layer == after.layer || harder < harder_by * before.resistance.specific_energy) return;
  const BitModels& bit = models_.bit;
  const Evaluation& now = probe(x_).evaluation();
  if (!(now.balance.depth_of_cut > 0.0)) return;
  const double impacts = bit.boundary_undulation / now.balance.depth_of_cut;
  for (Eigen::Index i = 0; i < layout().cutters; ++i) {
    if (system_.lost(i) || !(now.loads.engaged_width(i) > 0.0)) continue;
    const failure::CuttingEdge edge{bit.bit.back_rake(i), layout().worn(x_)(i), now.flat_temperature(i),
                                    layout().damage(x_)(i)};
    layout().chip_hazard(x_)(i) += failure::boundary_hazard(
        bit.chips, bit.bit.shape, edge, now.loads.mean_depth(i), harder, now.sliding_speed(i), impacts);
  }
}

void Drive::note_retention() {
  retention_loads(system_, x_, loads_);
  if (loads_.pocket.isNaN().any() || loads_.bond.isNaN().any() || loads_.blade.isNaN().any()) {
    throw std::runtime_error("the load of a cutter's seat is not a number");
  }
  marks_.pocket_load = marks_.pocket_load.max(loads_.pocket * (1 - marks_.lost).cast<double>());
  marks_.bond_load = marks_.bond_load.max(loads_.bond * (1 - marks_.lost).cast<double>());
  marks_.blade_load = std::max(marks_.blade_load, loads_.blade.maxCoeff());
  recorder_.note_retention(
      std::max({loads_.pocket.maxCoeff(), loads_.bond.maxCoeff(), loads_.blade.maxCoeff()}));
}

void Drive::chip(Eigen::Index i) {
  const double height = failure::chip_height(models_.bit.chips, models_.bit.bit.shape,
                                             probe(x_).evaluation().loads.mean_depth(i));
  layout().worn(x_)(i) += height;
  ++marks_.chips(i);
  // From where the last allowance was used up, so that a leap of the hazard can hold several chips.
  chip_at_(i) += chip_allowance(scenario_.random_events, i, marks_.chips(i));
  tell(EventKind::chip, static_cast<int>(i),
       "The edge chips, " + std::to_string(std::lround(1e6 * height)) + " micrometres deep.");
  stepper_.restart();
  rearm_ = true;
}

void Drive::something_lets_go() {
  retention_loads(probe(x_), x_, trial_loads_);
  const WeakestLink seat = weakest_link(trial_loads_, strengths_, marks_.lost, marks_.table_gone);
  rearm_ = true;
  switch (seat.part) {
    case WeakestLink::Part::pocket:
      return lose_cutter(seat.number);
    case WeakestLink::Part::bond:
      return lose_table(seat.number);
    case WeakestLink::Part::blade:
      return shear_blade(seat.number);
  }
}

void Drive::lose_cutter(Eigen::Index i) {
  marks_.lost(i) = 1;
  on_all_systems([i](DrillingSystem& system) { system.set_lost(i); });
  tell(EventKind::cutter_lost, static_cast<int>(i),
       "The cutter leaves its pocket; its neighbours take its load.");
}

void Drive::lose_table(Eigen::Index i) {
  marks_.table_gone(i) = 1;
  if (!system_.ruined(i)) ruin(i);
  tell(EventKind::table_lost, static_cast<int>(i),
       "The diamond table comes off its carbide, which wears fast from here.");
}

void Drive::shear_blade(Eigen::Index blade) {
  tell(EventKind::blade_sheared, -1, "Blade " + std::to_string(blade + 1) + " shears off at its root.");
  if (!outcome_.beyond_repair) outcome_.beyond_repair = milestone("blade_sheared");
  stop(EndedBy::blade_sheared);
}

}  // namespace dullcast::simulation
