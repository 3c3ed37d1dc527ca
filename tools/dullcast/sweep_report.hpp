#pragma once

#include <iosfwd>
#include <string>

#include "engine/scenario/display.hpp"
#include "engine/sweep/night.hpp"

namespace dullcast {

/// What a sweep would do, without running it: how many runs, the first cases' inputs, and an estimate of time
/// and disk from `sample_seconds` of timed cases. `scenarios` is a folder for the first cases' resolved
/// scenarios, or empty.
struct DryRun {
  int show = 5;
  double sample_seconds = 10.0;
  int threads = 1, ranks = 1;
  std::string scenarios;
};
void print_dry_run(std::ostream& out, const CaseMaker& maker, const Beginning& beginning, const DryRun& dry);

/// What a night did.
void print_night(std::ostream& out, const NightResult& night, const NightOptions& options, int ranks);

/// Every case as comma-separated values, units in the heading.
void write_sweep_csv(std::ostream& out, const SweepTable& table);

}  // namespace dullcast
