#pragma once

#include <atomic>
#include <functional>
#include <string>
#include <vector>

#include "engine/sweep/case_maker.hpp"
#include "engine/sweep/case_outcome.hpp"
#include "engine/sweep/chunk_source.hpp"
#include "engine/sweep/parts_folder.hpp"

namespace dullcast::sweep {

/// Runs one case. A case that cannot be run comes back as a failure with its sentence; what is the machine's
/// fault (base::is_machine_fault: memory, threads, files) is none of the case's and is thrown.
struct CaseResult {
  Case one;
  Eigen::ArrayXd outcome;
  std::string failure;                        // empty where it ran
  std::vector<storage::ThinHistory> history;  // one where it is kept
  double engine_seconds = 0.0;                // wall time inside the engine
};
CaseResult run_case(const CaseMaker& maker, long number);
/// The same with a scenario to make it in, whose memory is used again; what it held does not matter. Throws
/// simulation::RunGivenUp once `give_up` is set.
CaseResult run_case(const CaseMaker& maker, long number, scenario::Scenario& scenario,
                    const std::atomic<bool>* give_up = nullptr);

/// Whether a plan keeps the course of a case.
bool keeps_history(const KeptHistories& kept, long number);

/// How many chunks a number of cases makes.
inline long chunks_of(long cases, long cases_per_chunk) {
  return (cases + cases_per_chunk - 1) / cases_per_chunk;
}

/// A size for so many threads of all processes together. A killed execution loses at most what is in hand, so
/// a chunk is no more than two percent of a thread's share; writing a part to the disk and reading it again
/// takes milliseconds however little is in it, as long as some runs, so it grows to 500 cases within that;
/// and no more than ten thousand files are made, unless they would hold more than a hundred thousand cases
/// each, for a part is held in memory.
long usual_cases_per_chunk(long cases, long threads);

/// Where the time of all threads went.
struct TimeSpent {
  double wall = 0.0;    // s, threads times their lives
  double engine = 0.0;  // s of it inside run()
  double outside() const { return wall > 0.0 ? 1.0 - engine / wall : 0.0; }
};

struct ChunkWork {
  const SweepTexts* texts = nullptr;
  const PartsFolder* folder = nullptr;
  std::string fingerprint;
  long cases_per_chunk = 1;
  std::vector<long> chunks;  // those to do, the same list for all who share the work
  int threads = 1;
};

/// Does the chunks that `source` gives to this process, on `threads` threads, each writing its part as soon
/// as it is whole. This thread alone talks to `source` and calls `tell` (from time to time, with what all
/// have done). `interrupted` may be set by a signal: everybody stops, in the middle of a run at that. The
/// first error of a thread (a part that cannot be written, no memory) stops everybody and is thrown here, and
/// so does the folder when it is found gone, which is looked for several times a second (base::FileError).
/// The same parts, to the last byte, for any number of threads and processes.
TimeSpent run_chunks(const ChunkWork& work, ChunkSource& source, const std::atomic<bool>& interrupted,
                     const std::function<void(const Tally&)>& tell);

}  // namespace dullcast::sweep
