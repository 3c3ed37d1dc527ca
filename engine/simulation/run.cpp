#include "engine/simulation/run.hpp"

#include "engine/simulation/drive.hpp"

namespace dullcast::simulation {

RunOutcome run(const scenario::Scenario& scenario, const Progress& progress, Rows rows) {
  Drive drive(scenario, progress, rows);
  return drive.drill_all();
}

}  // namespace dullcast::simulation
