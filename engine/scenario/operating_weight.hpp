#pragma once

#include "engine/scenario/scenario.hpp"
#include "models/cutting/drill_string.hpp"
#include "models/materials/fluid.hpp"

namespace dullcast::scenario {

/// A record's central values as the models take them.
materials::Fluid fluid_of(const FluidRecord& record);
cutting::DrillString drill_string_of(const StringRecord& record);

/// Fluid as it passes the bit, with its volume flow there.
struct FluidAtBit {
  materials::Fluid fluid;
  double flow = 0.0;  // m3/s
};

/// A liquid is as its record says. A gas returns to the open surface, so it is near one atmosphere at the
/// bit, denser by no more than friction makes it, and carries its mist (gas_with_mist); with the pump off it
/// stands still.
FluidAtBit fluid_at_bit(const FluidRecord& record, const OperatingInterval& interval,
                        double inlet_temperature);

/// Weight that an interval puts on the bit at depth z (m), N: the whole as stated, or pull-down and the
/// string's weight in fluid of the given density (kg/m3) less holdback. The one place where weight on bit is
/// worked out: what is warned of is what is drilled with. A fluid as heavy as steel counts as nine tenths of
/// it.
double weight_on_bit(const OperatingInterval& interval, const cutting::DrillString& string,
                     double fluid_density, double z);

}  // namespace dullcast::scenario
