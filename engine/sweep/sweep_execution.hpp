#pragma once

#include <atomic>
#include <functional>
#include <string>
#include <vector>

#include "engine/storage/sweep_file.hpp"
#include "engine/sweep/case_maker.hpp"
#include "engine/sweep/chunk_source.hpp"
#include "engine/sweep/manifest.hpp"
#include "engine/sweep/ranks.hpp"
#include "engine/sweep/run_chunks.hpp"

namespace dullcast::sweep {

struct ExecutionOptions {
  std::string output;  // the sweep's file; parts gather in output + ".parts" until all are there
  int threads = 1;
  bool resume = false;         // go on where an earlier execution stopped
  bool other_machine = false;  // go on although this machine's arithmetic differs
  bool keep_parts = false;
  std::string program_version, program_commit;
};

struct ExecutionResult {
  bool finished = false;      // false: interrupted
  bool was_finished = false;  // it was there already, of the same manifest
  Tally now;                  // what this execution did, all ranks
  long cases = 0;
  long kept_before = 0;              // cases that earlier executions had done
  int threads = 1;                   // that worked, of this process: no more than there were parts to do
  TimeSpent spent;                   // all ranks
  double seconds = 0.0;              // of this execution
  std::vector<std::string> damaged;  // parts found damaged and run again
};

/// What is told while it runs: what is done in all, cases in all, and those of earlier executions.
using ExecutionProgress = std::function<void(const Tally& now, long cases, long kept_before)>;

/// What is told of the rest, each as done and in all; either may be empty.
struct ExecutionSteps {
  std::function<void(double, double)> looking;    // through the parts that are there
  std::function<void(double, double)> collating;  // putting the parts together
};

/// Runs what is missing of a sweep and puts its file together. `manifest` says what it is to be run with; all
/// ranks call this together with rank 0's. Refuses (base::FileError) to begin over a sweep that has begun or
/// is finished, to go on with one whose plan, scenario, library, program or machine differ (saying what
/// differs), a folder that ranks do not share, and a disk without room. Interrupted by the flag it stops
/// within a step of the runs in hand; whatever ends it, at most the chunks in hand are lost. What the machine
/// does not give (memory, threads, the disk) ends it with a std::runtime_error that says what and how to go
/// on.
ExecutionResult execute_sweep(const SweepManifest& manifest, const ExecutionOptions& options,
                              const Ranks& ranks, const std::atomic<bool>& interrupted,
                              const ExecutionProgress& tell, const ExecutionSteps& steps = {});

/// Everything a sweep file states beside its numbers.
storage::SweepHeader header_of(const CaseMaker& maker, const SweepManifest& manifest,
                               const ExecutionOptions& options);

}  // namespace dullcast::sweep
