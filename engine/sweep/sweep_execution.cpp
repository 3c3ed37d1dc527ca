#include "engine/sweep/sweep_execution.hpp"

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <iterator>

#include "engine/base/file_error.hpp"
#include "engine/base/machine_fault.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/storage/sweep_part_file.hpp"
#include "engine/sweep/parts_folder.hpp"
#include "engine/sweep/sweep_beginning.hpp"
#include "engine/sweep/sweep_size.hpp"

namespace dullcast::sweep {
namespace {

namespace fs = std::filesystem;

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
  Beginning start;
  std::string complaint, text;
  std::vector<long> flags{0};
  if (ranks.first()) {
    try {
      start = begin_or_look(wanted, options, folder, interrupted, steps.looking);
      result.damaged = std::move(start.damaged);
      flags[0] = start.lock ? 0 : 1;
      text = manifest_text(start.manifest);
    } catch (const std::exception& error) {
      complaint = base::machine_sentence(error);
      if (complaint.empty()) complaint = "cannot begin";
    }
  }
  complaint = ranks.first_complaint(complaint);
  if (!complaint.empty()) throw std::runtime_error(complaint);
  ranks.share(text);
  std::vector<long> missing = std::move(start.missing);
  ranks.share(missing);
  ranks.share(flags);
  const SweepManifest manifest = read_manifest(text, "began.yaml");
  std::vector<input::Warning> said;  // when the plan was read first
  if (!start.made) start.made = std::make_unique<CaseMaker>(manifest.texts, said);
  const CaseMaker& maker = *start.made;
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
    mine = "rank " + std::to_string(ranks.rank()) + " cannot take part:" + told_below(differs);
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
