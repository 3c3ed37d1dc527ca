#include "engine/run/run.hpp"

#include "engine/run/drive.hpp"

namespace dullcast {

RunOutcome run(const Scenario& scenario, const Progress& progress) {
  Drive drive(scenario, progress);
  return drive.drill_all();
}

}  // namespace dullcast
