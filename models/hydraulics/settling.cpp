#include "models/hydraulics/settling.hpp"

#include "models/common/bounds.hpp"
#include "models/hydraulics/cuttings.hpp"

namespace dullcast::hydraulics {

double settled_share(double slot_velocity, double slip_velocity, double suspending_transport) {
  const double ratio = transport_ratio(at_least(slot_velocity, 0.0), slip_velocity);
  return 1.0 - cubic_step(ratio / within(suspending_transport, 1e-3, 0.999));
}

double settled_depth(double solids, double settled, double packed_fraction, double hole_area) {
  constexpr double least_area = 1e-9;  // m2
  return at_least(solids, 0.0) * within(settled, 0.0, 1.0) /
         (within(packed_fraction, 0.05, 0.95) * at_least(hole_area, least_area));
}

double buried_share(double depth, double burying_depth) {
  constexpr double least_depth = 1e-5;  // m
  return cubic_step(depth / at_least(burying_depth, least_depth));
}

}  // namespace dullcast::hydraulics
