#include "engine/simulation/loop_width.hpp"

#include "models/common/wide.hpp"

namespace dullcast::simulation {

int numbers_at_once() {
  return wide_loops_take();
}

}  // namespace dullcast::simulation
