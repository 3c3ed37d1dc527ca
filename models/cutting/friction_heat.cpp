#include "models/cutting/friction_heat.hpp"

#include "models/common/constants.hpp"

namespace dullcast::cutting {

void friction_heat(const BitMechanics& bit, const BitForces& forces, const RockResistance& rock, double N,
                   double bit_radius, double chip_speed_share, FrictionHeat& heat) {
  const double omega = two_pi * N;
  heat.flat =
      rock.flat_friction * (omega * forces.loads.contact_moment + omega * bit_radius * forces.side_force);
  heat.face = chip_speed_share * rock.specific_energy * omega * bit.directions.chip_friction *
              forces.loads.area_moment;
}

}  // namespace dullcast::cutting
