#pragma once

namespace dullcast::hydraulics {

/// Pressure of a column of fluid from its level (m below surface) to depth z, Pa absolute [hb]:
/// one standard atmosphere + rho g max(0, z - level). Throws std::domain_error for a negative density or a
/// NaN.
double bottom_hole_pressure(double fluid_density, double fluid_level, double z);

/// Level of the fluid in the hole, m below surface: a liquid that is pumped (m3/s above 0) comes back over
/// the top and stands up to it [cp]; otherwise it stands where the ground's water does. Filling and falling
/// back, minutes each, are left out.
double fluid_level(bool liquid, double pumped, double water_level);

}  // namespace dullcast::hydraulics
