#include "engine/simulation/run.hpp"

#include "engine/simulation/drive.hpp"

namespace dullcast::simulation {

RunOutcome run(const scenario::Scenario& scenario, const Progress& progress) {
  Drive drive(scenario, progress);
  return drive.drill_all();
}

}  // namespace dullcast::simulation
