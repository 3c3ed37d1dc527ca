#include "models/cutting/drill_string.hpp"

#include <algorithm>
#include <limits>

#include "models/common/domain.hpp"

namespace dullcast::cutting {
namespace {

/// Share of the weight in air that is left in the fluid, 1 - rho_f/rho_s; checks the string on the way.
double buoyancy_factor(const char* function, const DrillString& string, double fluid_density) {
  require_domain(string.pipe_weight >= 0.0, function, "the pipe's weight must be 0 N/m or more",
                 string.pipe_weight);
  require_domain(string.collar_weight >= 0.0, function, "the collars' weight must be 0 N/m or more",
                 string.collar_weight);
  require_domain(string.collar_length >= 0.0, function, "the collars' length must be 0 m or more",
                 string.collar_length);
  require_domain(string.steel_density > 0.0, function, "the steel's density must be above 0 kg/m3",
                 string.steel_density);
  require_domain(fluid_density >= 0.0 && fluid_density < string.steel_density, function,
                 "the fluid's density must be 0 kg/m3 or more and under the steel's", fluid_density);
  return 1.0 - fluid_density / string.steel_density;
}

}  // namespace

double buoyed_string_weight(const DrillString& string, double z, double fluid_density) {
  const double buoyancy = buoyancy_factor("buoyed_string_weight", string, fluid_density);
  require_domain(z >= 0.0, "buoyed_string_weight", "the bit's depth must be 0 m or more", z);
  const double collars = std::min(z, string.collar_length);
  return buoyancy * (string.collar_weight * collars + string.pipe_weight * (z - collars));
}

double weight_on_bit(double pull_down, double buoyed_weight, double holdback) {
  const double weight = pull_down + buoyed_weight - holdback;
  require_domain(weight == weight, "weight_on_bit", "the weight must be a number", weight);
  return std::max(0.0, weight);
}

double depth_where_string_weighs(const DrillString& string, double limit, double fluid_density) {
  const double buoyancy = buoyancy_factor("depth_where_string_weighs", string, fluid_density);
  require_domain(limit >= 0.0, "depth_where_string_weighs", "the weight limit must be 0 N or more", limit);
  if (limit == 0.0) return 0.0;
  const double weight_in_air = limit / buoyancy;
  const double collars = string.collar_weight * string.collar_length;
  if (weight_in_air <= collars) return weight_in_air / string.collar_weight;
  if (string.pipe_weight == 0.0) return std::numeric_limits<double>::infinity();
  return string.collar_length + (weight_in_air - collars) / string.pipe_weight;
}

}  // namespace dullcast::cutting
