#pragma once

#include <string>
#include <vector>

#include "engine/base/display.hpp"
#include "tools/commands/told_run.hpp"

namespace dullcast::commands {

/// One figure of a run that can be put beside another's.
struct Measure {
  const char* name;  // as tables call it
  const char* label;
  const char* unit;  // SI, as tables state it
  double (*value)(const ToldRun&);
  std::string (*words)(double, const ToldRun&, base::ShownUnits);
};

/// All that runs are compared by, at rework where it fell due, else at the run's end; NaN where a run has
/// none.
const std::vector<Measure>& measures();

}  // namespace dullcast::commands
