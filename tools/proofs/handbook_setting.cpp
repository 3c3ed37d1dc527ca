#include "tools/proofs/handbook_setting.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"

namespace dullcast::proofs {

materials::SaturatedWater textbook_water() {
  materials::SaturatedWater water;
  water.pressure = standard_atmosphere;
  water.temperature = celsius_zero + 100.0;
  water.latent_heat = 2257e3;
  water.liquid_density = 957.9;
  water.vapour_density = 0.5955;
  water.surface_tension = 58.9e-3;
  water.liquid_heat_capacity = 4217.0;
  water.liquid_viscosity = 279e-6;
  water.liquid_conductivity = 4217.0 * 279e-6 / 1.76;
  return water;
}

materials::SaturatedWater textbook_film() {
  materials::SaturatedWater film = textbook_water();
  film.vapour_density = 0.4902;
  film.vapour_heat_capacity = 1980.0;
  film.vapour_viscosity = 15.25e-6;
  film.vapour_conductivity = 0.0299;
  return film;
}

double pressure_of_greatest_critical_flux() {
  double greatest = 0.0, at = 0.0;
  for (double pressure = 0.1e6; pressure < 20e6; pressure += 0.05e6) {
    const materials::SaturatedWater water = materials::saturated_water(pressure);
    const double flux = thermal::critical_heat_flux(water, water.temperature);
    if (flux > greatest) {
      greatest = flux;
      at = pressure;
    }
  }
  return at;
}

double exact_plate_stress(double biot) {
  double roots[60];
  for (int n = 0; n < 60; ++n) {
    double low = n * pi, high = n * pi + 0.5 * pi;
    for (int i = 0; i < 100; ++i) {
      const double mid = 0.5 * (low + high);
      (mid * std::sin(mid) - biot * std::cos(mid)) * (n % 2 == 0 ? 1.0 : -1.0) < 0.0 ? low = mid : high = mid;
    }
    roots[n] = 0.5 * (low + high);
  }
  double greatest = 0.0;
  for (double fourier = 2e-3; fourier < 3.0; fourier *= 1.01) {
    double difference = 0.0;
    for (const double mu : roots) {
      const double s = std::sin(mu), c = std::cos(mu);
      difference += 2.0 * s / (mu + s * c) * (s / mu - c) * std::exp(-mu * mu * fourier);
    }
    greatest = std::max(greatest, difference);
  }
  return greatest;
}

namespace {
constexpr double quartz_viscosity = 1.002e-3 / 998.2;                         // m2/s, of water at 20 C
constexpr double quartz_gravity = (2650.0 / 998.2 - 1.0) * standard_gravity;  // m/s2, less buoyancy
}  // namespace

double van_rijn_settling(double D) {
  const double cube = quartz_gravity * D * D * D / (quartz_viscosity * quartz_viscosity);
  return D <= 1e-3 ? 10.0 * quartz_viscosity / D * (std::sqrt(1.0 + 0.01 * cube) - 1.0)
                   : 1.1 * std::sqrt(quartz_gravity * D);
}

double soulsby_settling(double D) {
  const double cube = quartz_gravity * D * D * D / (quartz_viscosity * quartz_viscosity);
  return quartz_viscosity / D * (std::sqrt(10.36 * 10.36 + 1.049 * cube) - 10.36);
}

}  // namespace dullcast::proofs
