#include "models/materials/rock.hpp"

#include <cmath>

#include "models/common/constants.hpp"
#include "models/common/domain.hpp"

namespace dullcast::materials {

double bottom_hole_strength(const Rock& rock, double excess_pressure) {
  require_domain(excess_pressure >= 0.0, "bottom_hole_strength",
                 "the excess of bottom-hole over pore pressure must be 0 Pa or more", excess_pressure);
  require_domain(rock.friction_angle >= 0.0 && rock.friction_angle < pi / 2.0, "bottom_hole_strength",
                 "the friction angle must be 0 or more and under pi/2 rad", rock.friction_angle);
  const double sine = std::sin(rock.friction_angle);
  return rock.unconfined_strength + excess_pressure * (1.0 + sine) / (1.0 - sine);
}

double thermal_diffusivity(const Rock& rock) {
  const double heat_per_volume = rock.density * rock.heat_capacity;
  require_domain(heat_per_volume > 0.0, "thermal_diffusivity",
                 "density times heat capacity must be above 0 J/(m3 K)", heat_per_volume);
  return rock.conductivity / heat_per_volume;
}

}  // namespace dullcast::materials
