#pragma once

#include <atomic>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "engine/sweep/parts_folder.hpp"
#include "engine/sweep/sweep_execution.hpp"

namespace dullcast::sweep {

/// What rank 0 finds when a sweep is begun or gone on with.
struct Beginning {
  SweepManifest manifest;            // what the sweep is run with
  std::unique_ptr<CaseMaker> made;   // of its texts
  std::unique_ptr<FolderLock> lock;  // null where it is finished
  std::vector<long> missing;         // chunks that are to be run
  std::vector<std::string> damaged;  // parts that were set aside
};

/// Rank 0's part of starting: begins, or looks what is there already, and takes the folder's lock. `looking`
/// is told how many parts have been looked at, and of how many. Throws base::FileError, ScenarioErrors and
/// std::runtime_error where it can neither begin nor go on, and where it was interrupted.
Beginning begin_or_look(const SweepManifest& wanted, const ExecutionOptions& options,
                        const PartsFolder& folder, const std::atomic<bool>& interrupted,
                        const std::function<void(double, double)>& looking);

}  // namespace dullcast::sweep
