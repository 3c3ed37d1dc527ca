#include "engine/scenario/operating_weight.hpp"

#include <algorithm>

#include "models/common/constants.hpp"

namespace dullcast::scenario {

materials::Fluid fluid_of(const FluidRecord& record) {
  return {record.density.central, record.viscosity.central, record.conductivity.central,
          record.heat_capacity.central};
}

cutting::DrillString drill_string_of(const StringRecord& record) {
  return {record.pipe_weight, record.collar_weight, record.collar_length, record.steel_density};
}

FluidAtBit fluid_at_bit(const FluidRecord& record, const OperatingInterval& interval,
                        double inlet_temperature) {
  const materials::Fluid fluid = fluid_of(record);
  if (record.kind == FluidKind::liquid) return {fluid, interval.flow};
  const materials::Fluid at_bit = materials::gas_with_mist(fluid, interval.flow, interval.mist_water,
                                                           standard_atmosphere, inlet_temperature);
  const double mass_flow =
      fluid.density * interval.flow + materials::mist_water_density * interval.mist_water;
  return {at_bit, at_bit.density > 0.0 ? mass_flow / at_bit.density : 0.0};
}

double weight_on_bit(const OperatingInterval& interval, const cutting::DrillString& string,
                     double fluid_density, double z) {
  if (interval.weight_on_bit) return *interval.weight_on_bit;
  const double density = std::min(fluid_density, 0.9 * string.steel_density);
  return cutting::weight_on_bit(interval.pull_down, cutting::buoyed_string_weight(string, z, density),
                                interval.holdback);
}

}  // namespace dullcast::scenario
