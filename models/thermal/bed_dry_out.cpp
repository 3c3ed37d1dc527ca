#include "models/thermal/bed_dry_out.hpp"

#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"

namespace dullcast::thermal {

double bed_dry_out_flux(const materials::SaturatedWater& water, double grain, double void_share) {
  constexpr double least_grain = 1e-6;  // m
  const double d = at_least(grain, least_grain), e = within(void_share, 0.05, 0.95);
  const double solids = 1.0 - e, cube = e * e * e;
  const double rho_l = water.liquid_density, rho_v = water.vapour_density;
  const double roots =
      std::pow(water.vapour_viscosity / rho_v, 0.25) + std::pow(water.liquid_viscosity / rho_l, 0.25);
  const double sixths = std::pow(rho_v, -1.0 / 6.0) + std::pow(rho_l, -1.0 / 6.0);
  const double viscous = 150.0 * solids * solids / (cube * d * d) * roots * roots * roots * roots;
  const double inertial = 1.75 * solids / (cube * d) * std::pow(sixths, 6.0);
  const double weight = standard_gravity * (rho_l - rho_v);
  // The positive root of inertial j^2 + viscous j = weight, in the form that loses no digits.
  const double j = 2.0 * weight / (viscous + std::sqrt(viscous * viscous + 4.0 * inertial * weight));
  return water.latent_heat * j;
}

}  // namespace dullcast::thermal
