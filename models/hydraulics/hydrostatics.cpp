#include "models/hydraulics/hydrostatics.hpp"

#include <algorithm>

#include "models/common/constants.hpp"
#include "models/common/domain.hpp"

namespace dullcast::hydraulics {

double bottom_hole_pressure(double fluid_density, double fluid_level, double z) {
  const double head = z - fluid_level;
  require_domain(head == head, "bottom_hole_pressure", "depth less fluid level must be a number", head);
  require_domain(fluid_density >= 0.0, "bottom_hole_pressure", "the fluid's density must be 0 kg/m3 or more",
                 fluid_density);
  return standard_atmosphere + fluid_density * standard_gravity * std::max(0.0, head);
}

double fluid_level(bool liquid, double pumped, double water_level) {
  return liquid && pumped > 0.0 ? 0.0 : water_level;
}

}  // namespace dullcast::hydraulics
