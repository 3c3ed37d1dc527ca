#include "engine/sweep/sweep_beginning.hpp"

#include <filesystem>
#include <new>
#include <stdexcept>

#include "engine/base/file_error.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/sweep/sweep_size.hpp"

namespace dullcast::sweep {
namespace {

namespace fs = std::filesystem;

/// What keeps `now` from going on with what began as `then`.
std::vector<std::string> what_differs(const SweepManifest& then, const SweepManifest& now,
                                      bool other_machine) {
  SweepManifest as_now = now;
  // How parts are cut is the sweep's own affair, and a machine's arithmetic may be waived.
  as_now.cases_per_chunk = then.cases_per_chunk;
  if (other_machine) as_now.arithmetic = then.arithmetic;
  return differences(then, as_now);
}

/// What keeps the file at `output` from being the finished sweep of `wanted`.
std::vector<std::string> what_differs_in_file(const SweepManifest& wanted, const ExecutionOptions& options) {
  try {
    return what_differs(read_manifest(storage::read_sweep_manifest(options.output), options.output), wanted,
                        options.other_machine);
  } catch (const std::bad_alloc&) {
    throw;  // says nothing of the file
  } catch (const std::exception&) {
    // whatever it is, it is not ours to write over
    return {"it cannot be read as a sweep"};
  }
}

/// Whether the file at `output` is the finished sweep that is to be gone on with.
bool is_finished(const SweepManifest& wanted, const ExecutionOptions& options) {
  return options.resume && fs::exists(options.output) && what_differs_in_file(wanted, options).empty();
}

/// Whether the sweep is finished already. What an execution that was killed just then left of its parts is
/// removed.
bool finished_before(const SweepManifest& wanted, const ExecutionOptions& options,
                     const PartsFolder& folder) {
  if (!is_finished(wanted, options)) return false;
  if (!options.keep_parts && fs::exists(folder.path())) {
    try {
      const FolderLock lock(folder.path());
      folder.remove();
    } catch (const base::FileError&) {
      // held by the execution that is removing it, or not ours to write in; the sweep is finished all the
      // same
    }
  }
  return true;
}

/// Rank 0's part of starting, holding the folder's lock: what the sweep is run with.
SweepManifest start_or_resume(const SweepManifest& wanted, const ExecutionOptions& options,
                              const PartsFolder& folder) {
  if (folder.begun()) {
    if (!options.resume) {
      throw base::FileError(
          folder.path(),
          "a sweep has begun here; go on with it with --resume, or remove this folder to begin anew");
    }
    SweepManifest then = folder.manifest();
    const auto differs = what_differs(then, wanted, options.other_machine);
    if (!differs.empty()) {
      throw base::FileError(folder.path(), "cannot go on, for what the sweep began with has changed since:" +
                                               told_below(differs) +
                                               "\nPut it back, or remove the folder to begin anew");
    }
    return then;
  }
  folder.begin(wanted);
  return wanted;
}

ExpectedParts expected_of(const storage::SweepHeader& header, const SweepManifest& manifest) {
  return {header.table.cases(),     manifest.cases_per_chunk,
          fingerprint_of(manifest), static_cast<long>(header.table.columns.size()),
          header.history_rows,      static_cast<long>(header.history_columns.size())};
}

/// Refuses to write over a file that is there already.
void refuse_to_write_over(const SweepManifest& wanted, const ExecutionOptions& options,
                          const PartsFolder& folder) {
  if (!fs::exists(options.output) || (folder.begun() && !options.resume)) return;
  throw base::FileError(
      options.output,
      "this file is there already; remove it or write elsewhere with -o" +
          (options.resume ? ". It is not of this sweep:" + told_below(what_differs_in_file(wanted, options))
                          : std::string()));
}

/// The folder's lock; null where whoever held it up to now has finished the sweep.
std::unique_ptr<FolderLock> lock_unless_finished(const SweepManifest& wanted, const ExecutionOptions& options,
                                                 const PartsFolder& folder) {
  auto lock = std::make_unique<FolderLock>(folder.path());
  if (is_finished(wanted, options)) {
    if (!options.keep_parts) folder.remove();
    return nullptr;
  }
  try {
    refuse_to_write_over(wanted, options, folder);
  } catch (const base::FileError&) {
    if (!folder.begun()) folder.remove();  // made for its lock alone
    throw;
  }
  return lock;
}

/// The folder that a path stands in.
std::string above(const std::string& path) {
  return fs::absolute(path).parent_path().string();
}

}  // namespace

Beginning begin_or_look(const SweepManifest& wanted, const ExecutionOptions& options,
                        const PartsFolder& folder, const std::atomic<bool>& interrupted,
                        const std::function<void(double, double)>& looking) {
  Beginning it;
  it.manifest = wanted;
  if (finished_before(wanted, options, folder)) return it;
  refuse_to_write_over(wanted, options, folder);
  std::vector<input::Warning> said;                           // when the plan was read first
  it.made = std::make_unique<CaseMaker>(wanted.texts, said);  // what is gone on with has the same texts
  const CaseMaker& maker = *it.made;
  const double bytes = bytes_of_case(maker);
  if (!folder.begun()) {
    // Before anything is made: what cannot be done leaves nothing behind.
    refuse_without_room(above(folder.path()), bytes, maker.cases(), maker.cases());
    refuse_without_memory(bytes, maker.cases(), wanted.cases_per_chunk, options.threads);
  }
  it.lock = lock_unless_finished(wanted, options, folder);
  if (!it.lock) return it;
  it.manifest = start_or_resume(wanted, options, folder);
  const long size = it.manifest.cases_per_chunk, parts = chunks_of(maker.cases(), size);
  it.missing = folder.missing(expected_of(header_of(maker, it.manifest, options), it.manifest), it.damaged,
                              [&](long k) {
                                if (interrupted)
                                  throw std::runtime_error("Stopped while looking through the parts in " +
                                                           folder.path() + "; go on with --resume");
                                if (looking) looking(static_cast<double>(k), static_cast<double>(parts));
                              });
  refuse_without_room(folder.path(), bytes, std::ssize(it.missing) * size, maker.cases());
  refuse_without_memory(bytes, maker.cases(), size, options.threads);
  return it;
}

}  // namespace dullcast::sweep
