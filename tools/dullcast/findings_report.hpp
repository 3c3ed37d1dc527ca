#pragma once

#include <iosfwd>

#include "engine/forecast/findings.hpp"
#include "engine/scenario/display.hpp"

namespace dullcast {

/// Tells in plain words what the runs of a sweep mean: what failed, when rework is due, the best settings and
/// what they trade, which numbers matter, each with what the number of draws leaves open.
void print_findings(std::ostream& out, const SweepTable& table, const Findings& findings, ShownUnits units);

}  // namespace dullcast
