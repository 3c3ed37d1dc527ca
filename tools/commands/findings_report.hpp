#pragma once

#include <iosfwd>

#include "engine/analysis/findings.hpp"
#include "engine/base/display.hpp"

namespace dullcast::commands {

/// Tells in plain words what the runs of a sweep mean: what failed, when rework is due, the best settings and
/// what they trade, which numbers matter, each with what the number of draws leaves open.
void print_findings(std::ostream& out, const storage::SweepTable& table, const analysis::Findings& findings,
                    base::ShownUnits units);

}  // namespace dullcast::commands
