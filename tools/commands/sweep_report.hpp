#pragma once

#include <iosfwd>
#include <string>

#include "engine/base/display.hpp"
#include "engine/sweep/sweep_execution.hpp"

namespace dullcast::commands {

/// What a sweep would do, without running it: how many runs, the first cases' inputs, and an estimate of time
/// and disk from `sample_seconds` of timed cases; then as many cases as `making_seconds` allow are made
/// without being run, for slips that only some cases have. `scenarios` is a folder for the first cases'
/// resolved scenarios, or empty.
struct DryRun {
  int show = 5;
  double sample_seconds = 10.0, making_seconds = 3.0;
  base::ShownUnits units = base::ShownUnits::field;
  int threads = 1, ranks = 1;
  std::string scenarios;
};
/// Gives a sentence on the first case found that cannot be run, with its number; empty when all that were
/// tried can. Throws what is the machine's fault.
std::string print_dry_run(std::ostream& out, const sweep::CaseMaker& maker,
                          const sweep::SweepManifest& beginning, const DryRun& dry);

/// What a night did.
void print_sweep(std::ostream& out, const sweep::ExecutionResult& night,
                 const sweep::ExecutionOptions& options, int ranks);

/// Every case as comma-separated values, units in the heading.
void write_sweep_csv(std::ostream& out, const storage::SweepTable& table);

}  // namespace dullcast::commands
