#include "models/hydraulics/bottom_cleaning.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"
#include "models/hydraulics/cuttings.hpp"
#include "models/hydraulics/settling.hpp"

namespace dullcast::hydraulics {

double throwing_radius(const Eigen::ArrayXd& radius, const Eigen::ArrayXd& side_rake,
                       double chip_speed_share) {
  const double ways = radius.sum();
  return ways > 0.0 ? chip_speed_share * (radius.square() * side_rake.sin()).sum() / ways : 0.0;
}

Bed bed_round_cutters(const CleaningLaw& law, const materials::Fluid& fluid, double rock_density,
                      const SlotFlow& slot, double fraction) {
  Bed bed;
  bed.settled = settled_share(slot.slot_velocity, slip_velocity(fluid, rock_density, law.slots.bed_grain),
                              law.suspending_transport);
  const double depth =
      settled_depth(fraction * law.slots.volume, bed.settled, law.slots.packed_fraction, law.hole_area);
  const double covered = buried_share(depth, law.burying_depth);
  bed.buried = covered + (1.0 - covered) * slot.packing;
  return bed;
}

double regrinding_efficiency(const CleaningLaw& law, double buried, double plug) {
  const double height = plug_over_bit(law.slots, 0.0, 0.0, plug).height;
  return packed_efficiency(buried, law.packed_share) * plugged_efficiency(height, law.bit_diameter);
}

BottomFlow bottom_flow(const CleaningLaw& law, const materials::Fluid& fluid, double Q, double rock_density,
                       const Solids& solids, double annulus_velocity, double d, double omega) {
  BottomFlow flow;
  flow.cuttings_size = cuttings_size(d / std::max(law.blades, 1));
  flow.lifted_share =
      lifted_share(fluid, rock_density, flow.cuttings_size, law.cuttings_spread, annulus_velocity);
  flow.slot = slot_flow(law.slots, fluid, Q, solids.fraction, flow.lifted_share, omega * law.throwing_radius);
  flow.plug = plug_over_bit(law.slots, flow.slot.flow, flow.lifted_share, solids.plug);
  flow.renewal = flow.slot.flow / at_least(law.slots.volume, 1e-9);
  return flow;
}

SolidsRates solids_rates(const CleaningLaw& law, const BottomFlow& flow, const Solids& solids,
                         double rate_of_penetration, double hole_depth) {
  const SlotFlow& slot = flow.slot;
  SolidsRates rates;
  const double carried = slot.out - slot.overflow, carried_slope = slot.out_slope - slot.overflow_slope;
  rates.rate.fraction = solids_rate(law.slots, slot, solids.fraction, rate_of_penetration * law.hole_area) +
                        flow.plug.blocks * carried;
  const double kept = std::clamp((hole_depth - flow.plug.height) / law.bit_diameter, 0.0, 1.0);
  rates.rate.plug = kept * slot.overflow / law.slots.packed_fraction - flow.plug.flushed;
  rates.decay.fraction = std::max(0.0, slot.overflow_slope + (1.0 - flow.plug.blocks) * carried_slope);
  rates.decay.plug = flow.plug.flushed_slope;
  return rates;
}

Solids settled_solids(const CleaningLaw& law, const materials::Fluid& fluid, double Q, double rock_density,
                      const Solids& from, double annulus_velocity, double d, double rotary_speed,
                      double hole_depth) {
  constexpr int most_corrections = 8;
  constexpr double nothing = 1e-6;  // 1
  Solids solids = from;
  for (int k = 0; k < most_corrections; ++k) {
    const BottomFlow flow =
        bottom_flow(law, fluid, Q, rock_density, solids, annulus_velocity, d, two_pi * rotary_speed);
    const SolidsRates rates = solids_rates(law, flow, solids, d * rotary_speed, hole_depth);
    const double more = rates.rate.fraction / rates.decay.fraction,
                 higher = rates.rate.plug / rates.decay.plug;
    if (!std::isfinite(more) || !std::isfinite(higher)) break;
    solids.fraction += more;
    solids.plug += higher;
    if (std::abs(more) <= nothing && std::abs(higher) <= nothing) return solids;
  }
  return from;
}

}  // namespace dullcast::hydraulics
