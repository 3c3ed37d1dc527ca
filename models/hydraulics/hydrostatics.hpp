#pragma once

namespace dullcast::hydraulics {

/// Pressure of a column of fluid from its level (m below surface) to depth z, Pa absolute [hb]:
/// one standard atmosphere + rho g max(0, z - level). Throws std::domain_error for a negative density or a
/// NaN.
double bottom_hole_pressure(double fluid_density, double fluid_level, double z);

}  // namespace dullcast::hydraulics
