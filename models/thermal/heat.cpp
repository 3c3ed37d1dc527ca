#include "models/thermal/heat.hpp"

#include <algorithm>
#include <array>
#include <boost/math/quadrature/gauss.hpp>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/common/domain.hpp"

namespace dullcast::thermal {
namespace {

double equivalent_radius(const char* function, double area) {
  require_domain(area > 0.0, function, "the area must be above 0 m2", area);
  return std::sqrt(area / pi);
}

constexpr double gas_constant = 8.314462618;          // J/(mol K), SI 2019
constexpr double carbon_molar_mass = 12.011e-3;       // kg/mol
constexpr double diamond_debye_temperature = 1860.0;  // K

/// Nodes of the diamond table: 200 to 1,600 K every 2 K.
constexpr double first_node = 200.0, node_spacing = 2.0;
constexpr std::size_t node_count = 701;
constexpr double last_node = first_node + node_spacing * static_cast<double>(node_count - 1);

/// Heat capacity at the nodes, and its integral from the first node to each.
struct DiamondTable {
  std::array<double, node_count> capacity{}, heat{};
};

DiamondTable make_diamond_table() {
  DiamondTable table;
  for (std::size_t i = 0; i < node_count; ++i) {
    table.capacity[i] = debye_heat_capacity(first_node + node_spacing * static_cast<double>(i),
                                            diamond_debye_temperature, carbon_molar_mass);
    if (i > 0)
      table.heat[i] = table.heat[i - 1] + 0.5 * node_spacing * (table.capacity[i - 1] + table.capacity[i]);
  }
  return table;
}

/// Built once, on first use, and never changed: safe to share between threads.
const DiamondTable& diamond_table() {
  static const DiamondTable table = make_diamond_table();
  return table;
}

/// Where a temperature lies in the table.
struct TablePlace {
  std::size_t node;
  double share;  // 1, of the way to the next node
};

TablePlace place_of(const char* function, double T) {
  require_domain(T == T, function, "the temperature must be a number", T);
  const double place = (std::clamp(T, first_node, last_node) - first_node) / node_spacing;
  const std::size_t node = std::min(static_cast<std::size_t>(place), node_count - 2);
  return {node, place - static_cast<double>(node)};
}

/// From the first node to T, J/kg. Outside the table its ends hold.
double heat_up_to(double T) {
  const DiamondTable& table = diamond_table();
  const auto [i, share] = place_of("diamond_heat", T);
  const double outside = T < first_node ? (T - first_node) * table.capacity.front()
                                        : std::max(T - last_node, 0.0) * table.capacity.back();
  return outside + table.heat[i] +
         node_spacing * share *
             (table.capacity[i] + 0.5 * share * (table.capacity[i + 1] - table.capacity[i]));
}

}  // namespace

double rock_contact_conductance(double conductivity, double diffusivity, double v, double length,
                                double area) {
  const char* const name = "rock_contact_conductance";
  require_domain(conductivity > 0.0, name, "the conductivity must be above 0 W/(m K)", conductivity);
  require_domain(diffusivity > 0.0, name, "the diffusivity must be above 0 m2/s", diffusivity);
  require_domain(v >= 0.0, name, "the sliding speed must be 0 m/s or more", v);
  require_domain(length > 0.0, name, "the contact length must be above 0 m", length);
  const double radius = equivalent_radius(name, area);
  const double fast = 0.75 * std::sqrt(pi) * conductivity * std::sqrt(v / (diffusivity * length));
  const double still = 0.375 * pi * conductivity / radius;
  return std::sqrt(fast * fast + still * still);
}

double uniform_spot_resistance(double conductivity, double area) {
  require_domain(conductivity > 0.0, "uniform_spot_resistance", "the conductivity must be above 0 W/(m K)",
                 conductivity);
  return 8.0 / (3.0 * pi * pi * conductivity * equivalent_radius("uniform_spot_resistance", area));
}

double isothermal_spot_resistance(double conductivity, double area) {
  require_domain(conductivity > 0.0, "isothermal_spot_resistance", "the conductivity must be above 0 W/(m K)",
                 conductivity);
  return 1.0 / (4.0 * conductivity * equivalent_radius("isothermal_spot_resistance", area));
}

double diamond_heat_capacity(double T) {
  const std::array<double, node_count>& capacity = diamond_table().capacity;
  const auto [i, share] = place_of("diamond_heat_capacity", T);
  return capacity[i] + share * (capacity[i + 1] - capacity[i]);
}

DiamondHeat::DiamondHeat(double T_from) : up_to_from_(heat_up_to(T_from)) {}

double DiamondHeat::to(double T) const {
  return heat_up_to(T) - up_to_from_;
}

double debye_heat_capacity(double T, double debye_temperature, double molar_mass) {
  require_domain(T > 0.0, "debye_heat_capacity", "the temperature must be above 0 K", T);
  require_domain(debye_temperature > 0.0, "debye_heat_capacity", "the Debye temperature must be above 0 K",
                 debye_temperature);
  require_domain(molar_mass > 0.0, "debye_heat_capacity", "the molar mass must be above 0 kg/mol",
                 molar_mass);
  // x^4 e^x/(e^x - 1)^2 = x^2 ((x/2)/sinh(x/2))^2, which has its poles at +-2 pi i only.
  const auto integrand = [](double x) {
    const double ratio = 0.5 * x / std::sinh(0.5 * x);
    return x == 0.0 ? 0.0 : x * x * ratio * ratio;
  };
  // Past x = 80 the integrand is under 1e-27; panels at most 4 wide leave no error above rounding.
  const double end = std::min(debye_temperature / T, 80.0);
  const int panels = std::max(1, static_cast<int>(std::ceil(end / 4.0)));
  const double width = end / panels;
  double integral = 0.0;
  for (int i = 0; i < panels; ++i)
    integral += boost::math::quadrature::gauss<double, 20>::integrate(integrand, i * width, (i + 1) * width);
  const double reduced = T / debye_temperature;
  return 9.0 * gas_constant / molar_mass * reduced * reduced * reduced * integral;
}

double half_space_convection_share(double h, double conductivity, double diffusivity, double time) {
  const char* const name = "half_space_convection_share";
  require_domain(h >= 0.0, name, "the surface conductance must be 0 W/(m2 K) or more", h);
  require_domain(conductivity > 0.0, name, "the conductivity must be above 0 W/(m K)", conductivity);
  require_domain(diffusivity > 0.0, name, "the diffusivity must be above 0 m2/s", diffusivity);
  require_domain(time >= 0.0, name, "the time must be 0 s or more", time);
  const double x = h * std::sqrt(diffusivity * time) / conductivity;
  const double square = x * x;
  // Small x: exp(x^2) erf(x) - (exp(x^2) - 1), so that no 1 - 1 is formed.
  if (x < 0.5) return std::exp(square) * std::erf(x) - std::expm1(square);
  if (x < 8.0) return 1.0 - std::exp(square) * std::erfc(x);
  // Large x, where exp overflows: the asymptotic series of exp(x^2) erfc(x); its 20th term is under 1e-17.
  double term = 1.0, sum = 1.0;
  for (int n = 1; n < 20; ++n) {
    term *= -(2.0 * n - 1.0) / (2.0 * square);
    sum += term;
  }
  return 1.0 - sum / (x * std::sqrt(pi));
}

}  // namespace dullcast::thermal
