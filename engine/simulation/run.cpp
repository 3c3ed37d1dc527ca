#include "engine/simulation/run.hpp"

#include "engine/simulation/drive.hpp"

namespace dullcast::simulation {

RunOutcome run(const scenario::Scenario& scenario, const Progress& progress, Rows rows,
               const std::atomic<bool>* give_up) {
  Drive drive(scenario, progress, rows, usual_most_steps, give_up);
  return drive.drill_all();
}

}  // namespace dullcast::simulation
