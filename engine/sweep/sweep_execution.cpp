#include "engine/sweep/sweep_execution.hpp"

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <iterator>
#include <new>

#include "engine/base/file_error.hpp"
#include "engine/base/machine_fault.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/storage/sweep_part_file.hpp"
#include "engine/sweep/parts_folder.hpp"
#include "engine/sweep/sweep_size.hpp"

namespace dullcast::sweep {
namespace {

namespace fs = std::filesystem;

std::string one_text(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& sentence : sentences) text += "\n  " + sentence;
  return text;
}

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

/// Whether the sweep is finished already. What an execution that was killed just then left of its parts is
/// removed.
bool finished_before(const SweepManifest& wanted, const ExecutionOptions& options,
                     const PartsFolder& folder) {
  if (!options.resume || !fs::exists(options.output) || !what_differs_in_file(wanted, options).empty())
    return false;
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
                                               one_text(differs) +
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
          (options.resume ? ". It is not of this sweep:" + one_text(what_differs_in_file(wanted, options))
                          : std::string()));
}

/// The folder that a path stands in.
std::string above(const std::string& path) {
  return fs::absolute(path).parent_path().string();
}

/// Thrown on the way out of putting together when it is interrupted.
struct Interrupted {};

/// Puts the file together among the parts, where nothing is left of it when that is cut short, and then in
/// its place. A link to another disk cannot be filled by renaming. False when it was interrupted.
bool put_together(const ExecutionOptions& options, const PartsFolder& folder,
                  const storage::SweepHeader& header, long parts, const std::atomic<bool>& interrupted,
                  const std::function<void(double, double)>& tell) {
  std::vector<std::string> paths;
  for (long k = 0; k < parts; ++k) paths.push_back(folder.part_path(k));
  storage::SweepPartSeries files(std::move(paths));
  const auto part = [&](long k) {
    if (interrupted) throw Interrupted();
    return files.read(static_cast<std::size_t>(k));
  };
  const bool linked = fs::is_symlink(options.output);
  try {
    storage::write_sweep(linked ? options.output : folder.whole_path(), header, parts, part, tell);
  } catch (const Interrupted&) {
    return false;
  }
  if (!linked) base::rename_synced(folder.whole_path(), options.output);
  return true;
}

/// What is said of a failure, and how to go on where there is something to go on with.
std::string with_the_way_on(const std::string& failure, const PartsFolder& folder) {
  if (!folder.still_there()) return failure;
  return failure + "\nThe parts written up to now are kept in " + folder.path() + "; go on with --resume";
}

}  // namespace

storage::SweepHeader header_of(const CaseMaker& maker, const SweepManifest& manifest,
                               const ExecutionOptions& options) {
  const SweepPlan& plan = maker.plan();
  storage::SweepHeader header;
  header.table.title = plan.title;
  header.table.currency = maker.currency();
  header.table.design = design_word(plan.design.kind);
  header.table.points = maker.points();
  header.table.draws = plan.draws.runs;
  header.table.draws_alike = plan.draws.same_for_every_point;
  header.table.columns = maker.inputs();
  for (const storage::SweepColumn& column : outcome_columns()) header.table.columns.push_back(column);
  header.history_columns = history_columns();
  header.history_rows = plan.histories.rows;
  header.program_version = options.program_version;
  header.program_commit = options.program_commit;
  header.plan = manifest.texts.plan;
  header.scenario = manifest.texts.scenario;
  // How the parts were cut says nothing of what is in them, and leaves no trace.
  SweepManifest uncut = manifest;
  uncut.cases_per_chunk = 1;
  header.manifest = manifest_text(uncut);
  return header;
}

ExecutionResult execute_sweep(const SweepManifest& wanted, const ExecutionOptions& options,
                              const Ranks& ranks, const std::atomic<bool>& interrupted,
                              const ExecutionProgress& tell, const ExecutionSteps& steps) {
  PartsFolder folder(options.output + ".parts");
  ExecutionResult result;
  SweepManifest manifest = wanted;
  std::unique_ptr<FolderLock> lock;
  std::unique_ptr<CaseMaker> made;
  std::vector<input::Warning> said;  // when the plan was read first
  std::string complaint, text;
  std::vector<long> missing, flags{0};
  if (ranks.first()) {
    try {
      flags[0] = finished_before(wanted, options, folder) ? 1 : 0;
      if (flags[0] == 0) {
        refuse_to_write_over(wanted, options, folder);
        made = std::make_unique<CaseMaker>(wanted.texts, said);  // what is gone on with has the same texts
        const CaseMaker& maker = *made;
        const double bytes = bytes_of_case(maker);
        if (!folder.begun()) {
          // Before anything is made: what cannot be done leaves nothing behind.
          refuse_without_room(above(folder.path()), bytes, maker.cases(), maker.cases());
          refuse_without_memory(bytes, maker.cases(), wanted.cases_per_chunk, options.threads);
        }
        lock = std::make_unique<FolderLock>(folder.path());
        manifest = start_or_resume(wanted, options, folder);
        const long parts = chunks_of(maker.cases(), manifest.cases_per_chunk);
        missing = folder.missing(expected_of(header_of(maker, manifest, options), manifest), result.damaged,
                                 [&](long k) {
                                   if (interrupted)
                                     throw std::runtime_error("Stopped while looking through the parts in " +
                                                              folder.path() + "; go on with --resume");
                                   if (steps.looking)
                                     steps.looking(static_cast<double>(k), static_cast<double>(parts));
                                 });
        refuse_without_room(folder.path(), bytes, std::ssize(missing) * manifest.cases_per_chunk,
                            maker.cases());
        refuse_without_memory(bytes, maker.cases(), manifest.cases_per_chunk, options.threads);
      }
      text = manifest_text(manifest);
    } catch (const std::exception& error) {
      complaint = base::machine_sentence(error);
      if (complaint.empty()) complaint = "cannot begin";
    }
  }
  complaint = ranks.first_complaint(complaint);
  if (!complaint.empty()) throw std::runtime_error(complaint);
  ranks.share(text);
  ranks.share(missing);
  ranks.share(flags);
  manifest = read_manifest(text, "began.yaml");
  if (!made) made = std::make_unique<CaseMaker>(manifest.texts, said);
  const CaseMaker& maker = *made;
  result.cases = maker.cases();
  if (flags[0] != 0) {
    result.finished = result.was_finished = true;
    result.kept_before = result.cases;
    return result;
  }
  // All must see rank 0's folder and compute alike, or their parts would not make one sweep.
  std::string mine;
  if (!folder.begun())
    mine = folder.path() + ": not seen by every rank; the folder must be on storage that all machines share";
  SweepManifest here = manifest;
  here.program = wanted.program;
  here.program_digits = wanted.program_digits;
  here.arithmetic = options.other_machine ? here.arithmetic : arithmetic_digits();
  const auto differs = differences(manifest, here);
  try {
    if (mine.empty()) folder.remember();
  } catch (const base::FileError& error) {
    mine = error.what();
  }
  if (mine.empty() && !differs.empty())
    mine = "rank " + std::to_string(ranks.rank()) + " cannot take part:" + one_text(differs);
  complaint = ranks.first_complaint(mine);
  if (!complaint.empty()) throw std::runtime_error(complaint);

  const long size = manifest.cases_per_chunk;
  long to_do = 0;
  for (const long chunk : missing) to_do += std::min(size, result.cases - chunk * size);
  result.kept_before = result.cases - to_do;
  ChunkWork work;
  work.texts = &manifest.texts;
  work.folder = &folder;
  work.fingerprint = digits_of(text);
  work.cases_per_chunk = size;
  work.chunks = missing;
  // More threads than chunks would have nothing to do.
  work.threads = static_cast<int>(std::min<long>(options.threads, std::max<long>(1, std::ssize(missing))));
  result.threads = work.threads;
  const auto began = std::chrono::steady_clock::now();
  const auto source = ranks.make_source();
  std::string failure;
  try {
    std::function<void(const Tally&)> told;
    if (tell && ranks.first()) {
      told = [&](const Tally& total) { tell(total, result.cases, result.kept_before); };
    }
    result.spent = run_chunks(work, *source, interrupted, told);
  } catch (const std::exception& error) {
    failure = base::machine_sentence(error);
  }
  failure = ranks.first_complaint(failure);  // also waits until all have ended
  result.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  result.now = source->total();
  result.spent.wall = ranks.sum(result.spent.wall);
  result.spent.engine = ranks.sum(result.spent.engine);
  const bool stopped = source->stopped();
  if (!failure.empty()) throw std::runtime_error(with_the_way_on(failure, folder));
  if (stopped) return result;
  if (ranks.first()) {
    try {
      const bool whole = put_together(options, folder, header_of(maker, manifest, options),
                                      chunks_of(result.cases, size), interrupted, steps.collating);
      if (whole && !options.keep_parts) folder.remove();
      flags[0] = whole ? 1 : 0;
    } catch (const std::exception& error) {
      complaint = with_the_way_on(base::machine_sentence(error), folder);
    }
  }
  complaint = ranks.first_complaint(complaint);
  if (!complaint.empty()) throw std::runtime_error(complaint);
  ranks.share(flags);
  result.finished = flags[0] != 0;
  return result;
}

}  // namespace dullcast::sweep
