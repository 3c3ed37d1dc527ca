#include "models/hydraulics/bottom_cleaning.hpp"

#include <algorithm>

#include "models/hydraulics/cuttings.hpp"

namespace dullcast::hydraulics {

double regrinding_efficiency(const CleaningLaw& law, double packing, double plug) {
  const double height = plug_over_bit(law.slots, 0.0, 0.0, plug).height;
  return packed_efficiency(packing, law.packed_share) * plugged_efficiency(height, law.bit_diameter);
}

BottomFlow bottom_flow(const CleaningLaw& law, const materials::Fluid& fluid, double Q, double rock_density,
                       const Solids& solids, double annulus_velocity, double d) {
  BottomFlow flow;
  flow.cuttings_size = cuttings_size(d / std::max(law.blades, 1));
  flow.lifted_share =
      lifted_share(fluid, rock_density, flow.cuttings_size, law.cuttings_spread, annulus_velocity);
  flow.slot = slot_flow(law.slots, fluid, Q, solids.fraction, flow.lifted_share);
  flow.plug = plug_over_bit(law.slots, flow.slot.flow, flow.lifted_share, solids.plug);
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

}  // namespace dullcast::hydraulics
