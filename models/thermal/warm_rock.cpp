#include "models/thermal/warm_rock.hpp"

#include <algorithm>
#include <cmath>

namespace dullcast::thermal {

WarmRock warm_rock(const materials::Rock& rock, double bottom_area, double rop, double passes_per_second,
                   double most_capacity_depth) {
  const double area = std::max(bottom_area, 0.0), speed = std::max(rop, 0.0);
  const double passes = std::max(passes_per_second, 0.0), depth = std::max(most_capacity_depth, 1e-4);
  const double volumetric = rock.density * rock.heat_capacity;
  const double diffusivity = rock.conductivity / volumetric;
  const double peclet = speed * depth / diffusivity;
  const double skin = depth / (2.0 * peclet + std::exp(-5.0 * peclet));
  const double pass_skin_squared = diffusivity / (passes + diffusivity / (depth * depth));
  WarmRock node;
  node.to_cuttings = volumetric * speed * area;
  node.to_rock = rock.conductivity * area / (4.0 * depth) * std::exp(-6.0 * peclet);
  node.capacity = volumetric * area * std::sqrt(skin * skin + pass_skin_squared);
  return node;
}

}  // namespace dullcast::thermal
