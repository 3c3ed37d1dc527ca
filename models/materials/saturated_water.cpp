#include "models/materials/saturated_water.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>

#include "models/common/bounds.hpp"
#include "models/common/domain.hpp"

namespace dullcast::materials {
namespace {

// Critical point of IAPWS SR1-86(1992).
constexpr double critical_temperature = 647.096;  // K
constexpr double critical_pressure = 22.064e6;    // Pa
constexpr double critical_density = 322.0;        // kg/m3

/// Cube root of 1 - T/T_c and its powers, shared by the density equations.
struct Powers {
  explicit Powers(double T)
      : tau(1.0 - T / critical_temperature),
        c(std::cbrt(std::max(tau, 0.0))),
        c2(c * c),
        c4(c2 * c2),
        c8(c4 * c4),
        c16(c8 * c8),
        c32(c16 * c16) {}
  double tau, c, c2, c4, c8, c16, c32;
};

double liquid_density(const Powers& p) {
  return critical_density *
         (1.0 + 1.99274064 * p.c + 1.09965342 * p.c2 - 0.510839303 * p.c4 * p.c - 1.75493479 * p.c16 -
          45.5170352 * p.c32 * p.c8 * p.c2 * p.c - 6.74694450e5 * p.c32 * p.c32 * p.c32 * p.c8 * p.c4 * p.c2);
}

double vapour_density(const Powers& p) {
  const double half = std::sqrt(p.c);
  return critical_density *
         std::exp(-2.03150240 * p.c - 2.68302940 * p.c2 - 5.38626492 * p.c4 - 17.2991605 * p.c8 * p.c -
                  44.7586581 * p.c16 * p.c2 * half - 63.9201063 * p.c32 * p.c2 * p.c * half);
}

/// The sum in the pressure equation of SR1-86, ln(p/p_c) = T_c/T sum(tau).
template <class Number>
Number pressure_sum(const Number& tau) {
  using std::sqrt;
  const Number root = sqrt(tau), tau2 = tau * tau, tau3 = tau2 * tau;
  return -7.85951783 * tau + 1.84408259 * tau * root - 11.7866497 * tau3 + 22.6807411 * tau3 * root -
         15.9618719 * tau3 * tau + 1.80122502 * tau3 * tau3 * tau * root;
}

/// dp/dT along saturation, Pa/K: that equation differentiated, with T_c/T sum put as ln(p/p_c).
double pressure_slope(double tau, double T, double pressure) {
  return -pressure / T * (std::log(pressure / critical_pressure) + pressure_sum(variable(tau)).slope);
}

constexpr double first_node = 300.0, node_spacing = 10.0;
constexpr std::size_t node_count = 35, column_count = 6;
using Column = std::array<double, node_count>;
using Table = std::array<Column, column_count>;

/// Incropera & DeWitt table A.6 [hb, from memory], 300 to 640 K. Two vapour conductivities are smoothed
/// between their neighbours: 420 K (the printed 29.8 stands off the curve) and 570 K.
constexpr Table table{{
    // liquid heat capacity, kJ/(kg K)
    {4.179, 4.178, 4.180, 4.184, 4.188, 4.195, 4.203, 4.214, 4.226, 4.239, 4.256, 4.278,
     4.302, 4.331, 4.36,  4.40,  4.44,  4.48,  4.53,  4.59,  4.66,  4.74,  4.84,  4.95,
     5.08,  5.24,  5.43,  5.68,  6.00,  6.41,  7.00,  7.85,  9.35,  12.6,  26.0},
    // liquid viscosity, uPa s
    {855.0, 695.0, 577.0, 489.0, 420.0, 365.0, 324.0, 289.0, 260.0, 237.0, 217.0, 200.0,
     185.0, 173.0, 162.0, 152.0, 143.0, 136.0, 129.0, 124.0, 118.0, 113.0, 108.0, 104.0,
     101.0, 97.0,  94.0,  91.0,  88.0,  84.0,  81.0,  77.0,  72.0,  67.0,  59.0},
    // liquid conductivity, mW/(m K)
    {613.0, 628.0, 640.0, 650.0, 660.0, 668.0, 674.0, 679.0, 683.0, 686.0, 688.0, 688.0,
     688.0, 685.0, 682.0, 678.0, 673.0, 667.0, 660.0, 651.0, 642.0, 631.0, 621.0, 608.0,
     594.0, 580.0, 563.0, 548.0, 528.0, 513.0, 497.0, 467.0, 444.0, 412.0, 367.0},
    // vapour heat capacity, kJ/(kg K)
    {1.872, 1.882, 1.895, 1.911, 1.930, 1.954, 1.983, 2.017, 2.057, 2.104, 2.158, 2.221,
     2.291, 2.369, 2.46,  2.56,  2.68,  2.79,  2.94,  3.10,  3.27,  3.47,  3.70,  3.96,
     4.27,  4.64,  5.09,  5.67,  6.40,  7.35,  8.75,  11.1,  15.4,  22.1,  42.0},
    // vapour viscosity, uPa s
    {9.09,  9.49,  9.89,  10.29, 10.69, 11.09, 11.49, 11.89, 12.29, 12.69, 13.05, 13.42,
     13.79, 14.14, 14.50, 14.85, 15.19, 15.54, 15.88, 16.23, 16.59, 16.95, 17.33, 17.72,
     18.1,  18.6,  19.1,  19.7,  20.4,  21.5,  22.7,  24.1,  25.9,  28.0,  32.0},
    // vapour conductivity, mW/(m K)
    {19.6, 20.4, 21.0, 21.7, 22.3, 23.0, 23.7, 24.5,  25.4,  26.3,  27.2, 28.2,
     29.3, 30.4, 31.7, 33.1, 34.6, 36.3, 38.1, 40.1,  42.3,  44.7,  47.5, 50.6,
     54.0, 58.3, 63.7, 69.9, 76.7, 84.1, 92.9, 103.0, 114.0, 130.0, 155.0},
}};

/// Slopes per node spacing: harmonic mean of the two chords, 0 where they turn (Fritsch & Butland).
constexpr Table make_slopes() {
  Table slopes{};
  for (std::size_t column = 0; column < column_count; ++column) {
    const Column& y = table[column];
    Column& slope = slopes[column];
    for (std::size_t i = 1; i + 1 < node_count; ++i) {
      const double before = y[i] - y[i - 1], after = y[i + 1] - y[i];
      slope[i] = before * after > 0.0 ? 2.0 * before * after / (before + after) : 0.0;
    }
    slope[0] = y[1] - y[0];
    slope[node_count - 1] = y[node_count - 1] - y[node_count - 2];
  }
  return slopes;
}
constexpr Table slopes = make_slopes();

/// Hermite weights of one place in the table, the same for every column.
class Place {
 public:
  explicit Place(double T) {
    const double place = (T - first_node) / node_spacing;
    i_ = std::min(static_cast<std::size_t>(std::max(place, 0.0)), node_count - 2);
    const double x = place - static_cast<double>(i_), rest = 1.0 - x;
    right_ = x * x * (3.0 - 2.0 * x);
    left_slope_ = x * rest * rest;
    right_slope_ = -x * x * rest;
  }
  double operator()(std::size_t column) const {
    const Column &y = table[column], &slope = slopes[column];
    return y[i_] + right_ * (y[i_ + 1] - y[i_]) + left_slope_ * slope[i_] + right_slope_ * slope[i_ + 1];
  }

 private:
  std::size_t i_ = 0;
  double right_ = 0.0, left_slope_ = 0.0, right_slope_ = 0.0;
};

void require_saturation_range(const char* function, double T) {
  require_domain(T >= 273.15 && T <= critical_temperature, function,
                 "the temperature must be between 273.15 K and 647.096 K", T);
}

}  // namespace

double saturation_temperature(double pressure) {
  require_domain(pressure >= 611.213 && pressure <= 22.064e6, "saturation_temperature",
                 "the pressure must be between 611.213 Pa and 22.064 MPa", pressure);
  // Coefficients n1..n10 of IAPWS R7-97(2012), table 34.
  constexpr double n1 = 0.11670521452767e4, n2 = -0.72421316703206e6, n3 = -0.17073846940092e2,
                   n4 = 0.12020824702470e5, n5 = -0.32325550322333e7, n6 = 0.14915108613530e2,
                   n7 = -0.48232657361591e4, n8 = 0.40511340542057e6, n9 = -0.23855557567849,
                   n10 = 0.65017534844798e3;
  const double beta = std::pow(pressure * 1e-6, 0.25);
  const double e = beta * beta + n3 * beta + n6;
  const double f = n1 * beta * beta + n4 * beta + n7;
  const double g = n2 * beta * beta + n5 * beta + n8;
  const double root = 2.0 * g / (-f - std::sqrt(f * f - 4.0 * e * g));
  const double sum = n10 + root;
  return 0.5 * (sum - std::sqrt(sum * sum - 4.0 * (n9 + n10 * root)));
}

SaturatedWater saturated_water(double pressure) {
  require_domain(pressure >= 5e3 && pressure <= 20e6, "saturated_water",
                 "the pressure must be between 5 kPa and 20 MPa", pressure);
  SaturatedWater water;
  water.pressure = pressure;
  const double T = water.temperature = saturation_temperature(pressure);
  const Powers powers(T);
  water.liquid_density = liquid_density(powers);
  water.vapour_density = vapour_density(powers);
  water.latent_heat =
      T * pressure_slope(powers.tau, T, pressure) * (1.0 / water.vapour_density - 1.0 / water.liquid_density);
  water.surface_tension = 0.2358 * std::pow(powers.tau, 1.256) * (1.0 - 0.625 * powers.tau);
  const Place at(T);
  water.liquid_heat_capacity = 1e3 * at(0);
  water.liquid_viscosity = 1e-6 * at(1);
  water.liquid_conductivity = 1e-3 * at(2);
  water.vapour_heat_capacity = 1e3 * at(3);
  water.vapour_viscosity = 1e-6 * at(4);
  water.vapour_conductivity = 1e-3 * at(5);
  return water;
}

double saturated_liquid_density(double T) {
  require_saturation_range("saturated_liquid_density", T);
  return liquid_density(Powers(T));
}

double saturated_vapour_density(double T) {
  require_saturation_range("saturated_vapour_density", T);
  return vapour_density(Powers(T));
}

double saturation_pressure(double T) {
  require_saturation_range("saturation_pressure", T);
  return held_saturation_pressure_of(T);
}

template <class Number>
Number held_saturation_pressure_of(const Number& T) {
  using std::sqrt;
  // Coefficients n1..n10 of IAPWS R7-97(2012), table 34.
  constexpr double n1 = 0.11670521452767e4, n2 = -0.72421316703206e6, n3 = -0.17073846940092e2,
                   n4 = 0.12020824702470e5, n5 = -0.32325550322333e7, n6 = 0.14915108613530e2,
                   n7 = -0.48232657361591e4, n8 = 0.40511340542057e6, n9 = -0.23855557567849,
                   n10 = 0.65017534844798e3;
  const Number held = within(T, 273.15, critical_temperature);
  const Number theta = held + n9 / (held - n10);
  const Number a = theta * theta + n1 * theta + n2;
  const Number b = (n3 * theta + n4) * theta + n5;
  const Number c = (n6 * theta + n7) * theta + n8;
  const Number beta = 2.0 * c / (sqrt(b * b - 4.0 * a * c) - b);
  return 1e6 * beta * beta * beta * beta;
}
template double held_saturation_pressure_of(const double&);
template Dual held_saturation_pressure_of(const Dual&);

PressureAndSlope held_saturation_pressure(double T) {
  const Dual pressure = held_saturation_pressure_of(variable(T));
  return {pressure.value, pressure.slope};
}

}  // namespace dullcast::materials
