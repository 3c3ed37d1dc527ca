#include "engine/sweep/run_chunks.hpp"

#include <algorithm>
#include <chrono>
#include <condition_variable>
#include <deque>
#include <exception>
#include <limits>
#include <mutex>
#include <optional>
#include <utility>

#include "engine/base/file_error.hpp"
#include "engine/base/machine_fault.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/base/threads.hpp"
#include "engine/simulation/run.hpp"
#include "engine/storage/sweep_format.hpp"
#include "engine/storage/sweep_part_file.hpp"

namespace dullcast::sweep {
namespace {

using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point began) {
  return std::chrono::duration<double>(Clock::now() - began).count();
}

/// What the threads and the one that talks to the source hand each other.
struct Desk {
  std::mutex mutex;
  std::condition_variable workers, master;
  std::deque<long> chunks;  // taken from the source, not yet begun
  bool all_taken = false;
  std::atomic<bool> stop{false};
  int at_work = 0;
  Tally gained;  // not yet reported
  TimeSpent spent;
  bool failed = false;  // a thread has thrown

  /// Lets everybody end.
  void call_off(bool failure) {
    const std::lock_guard<std::mutex> lock(mutex);
    failed = failed || failure;
    stop = true;
    workers.notify_all();
  }
};

/// As much of a failure's sentence as a sweep's file keeps, so that a hundred thousand long ones fill no
/// memory.
std::string kept_of(const std::string& sentence) {
  std::size_t length = std::min<std::size_t>(sentence.size(), storage::sweep_format::message_length);
  while (length > 0 && base::inside_character(sentence, length)) --length;
  return sentence.substr(0, length);
}

/// Runs a chunk's cases; nothing when it was told to stop on the way, in the middle of a run at that: some
/// last minutes.
std::optional<storage::SweepPart> run_chunk(const CaseMaker& maker, const ChunkWork& work, long chunk,
                                            Desk& desk, double& engine) {
  const long first = chunk * work.cases_per_chunk + 1;
  const long count = std::min(work.cases_per_chunk, maker.cases() - first + 1);
  const auto inputs = static_cast<Eigen::Index>(maker.inputs().size());
  const auto outcomes = static_cast<Eigen::Index>(outcome_columns().size());
  storage::SweepPart part;
  part.fingerprint = work.fingerprint;
  part.first_case = first;
  part.values.resize(count, inputs + outcomes);
  const Eigen::Index hottest = outcome_column("hottest_flat");
  scenario::Scenario scenario;  // of the case in hand: one's memory serves them all
  for (long k = 0; k < count; ++k) {
    if (desk.stop) return std::nullopt;
    CaseResult result;
    try {
      result = run_case(maker, first + k, scenario, &desk.stop);
    } catch (const simulation::RunGivenUp&) {
      return std::nullopt;
    }
    engine += result.engine_seconds;
    part.values.row(k).head(inputs) = result.one.inputs.transpose();
    part.values.row(k).tail(outcomes) = result.outcome.transpose();
    Tally gained{1, result.failure.empty() ? 0 : 1, 0.0};
    if (result.failure.empty()) {
      gained.hottest = result.outcome(hottest);
    } else {
      part.failures.push_back({first + k, kept_of(result.failure)});
    }
    for (storage::ThinHistory& history : result.history) part.histories.push_back(std::move(history));
    const std::lock_guard<std::mutex> lock(desk.mutex);
    desk.gained.add(gained);
  }
  return part;
}

/// Tells the desk that a thread has ended, and what its time went into, however it ends.
class AtWork {
 public:
  AtWork(Desk& desk, const double& engine) : desk_(desk), engine_(engine), began_(Clock::now()) {}
  ~AtWork() {
    const std::lock_guard<std::mutex> lock(desk_.mutex);
    desk_.spent.engine += engine_;
    desk_.spent.wall += seconds_since(began_);
    --desk_.at_work;
    desk_.master.notify_one();
  }
  AtWork(const AtWork&) = delete;
  AtWork& operator=(const AtWork&) = delete;

 private:
  Desk& desk_;
  const double& engine_;
  Clock::time_point began_;
};

/// Takes chunks from the desk until none is left; an exception calls the others off and goes on.
void work_on(const ChunkWork& work, Desk& desk) {
  double engine = 0.0;
  const AtWork here(desk, engine);
  try {
    std::vector<input::Warning> warnings;
    const CaseMaker maker(*work.texts, warnings);
    for (;;) {
      long place = 0;
      {
        std::unique_lock<std::mutex> lock(desk.mutex);
        desk.workers.wait(lock, [&] { return desk.stop || desk.all_taken || !desk.chunks.empty(); });
        if (desk.stop || desk.chunks.empty()) break;
        place = desk.chunks.front();
        desk.chunks.pop_front();
      }
      desk.master.notify_one();
      const long chunk = work.chunks[static_cast<std::size_t>(place)];
      const std::optional<storage::SweepPart> part = run_chunk(maker, work, chunk, desk, engine);
      if (!part) break;
      try {
        storage::write_sweep_part(work.folder->place_for_part(chunk), *part);
      } catch (const std::exception&) {
        work.folder->check();  // where the folder has gone, that is what to say, not which call noticed first
        throw;
      }
    }
  } catch (...) {
    desk.call_off(true);
    throw;
  }
}

/// Keeps one chunk ready beyond those begun, passes on what was done, until all threads have ended.
void attend(const ChunkWork& work, Desk& desk, ChunkSource& source, const std::atomic<bool>& interrupted,
            const std::function<void(const Tally&)>& tell) {
  // Others' wishes are looked at often, what is shared with all only at first, after a chunk's worth of cases
  // and now and then: a thousand processes ask it of one, and each chunk asks of it anyway.
  constexpr std::chrono::milliseconds pause{20};
  constexpr double between_reports = 0.2;  // s
  const auto last = static_cast<long>(work.chunks.size());
  Clock::time_point reported = Clock::now();
  bool first = true, gone = false;
  std::unique_lock<std::mutex> lock(desk.mutex);
  while (desk.at_work > 0) {
    const bool wants = desk.chunks.empty() && !desk.all_taken && !desk.stop;
    const bool failed = desk.failed || gone;
    const bool reports = std::exchange(first, false) || desk.gained.cases >= work.cases_per_chunk || failed ||
                         seconds_since(reported) > between_reports;
    const Tally gained = reports ? std::exchange(desk.gained, {}) : Tally{};
    lock.unlock();
    const long place = wants ? source.take() : last;
    source.attend();
    bool stop = false;
    if (reports) {
      reported = Clock::now();
      source.report(gained);
      gone = gone || !work.folder->still_there();
      if (interrupted || failed || gone) source.stop();
      stop = source.stopped();
      if (tell) tell(source.total());
    }
    lock.lock();
    if (stop) desk.stop = true;
    if (wants && place < last) desk.chunks.push_back(place);
    if (wants && place >= last) desk.all_taken = true;
    if (wants || stop) desk.workers.notify_all();
    const bool more_wanted = desk.chunks.empty() && !desk.all_taken && !desk.stop;
    if (desk.at_work > 0 && !more_wanted) desk.master.wait_for(lock, pause);
  }
  const Tally gained = std::exchange(desk.gained, {});
  const bool failed = desk.failed;
  lock.unlock();
  source.report(gained);
  if (failed || gone || interrupted) source.stop();
  if (tell) tell(source.total());
  work.folder->check();
}

}  // namespace

bool keeps_history(const KeptHistories& kept, long number) {
  if (std::binary_search(kept.cases.begin(), kept.cases.end(), number)) return true;
  return kept.every > 0 && (number - 1) % kept.every == 0;
}

long usual_cases_per_chunk(long cases, long threads) {
  constexpr long least = 4, most_files = 10'000, enough = 500, chunks_a_thread = 50, most = 100'000;
  const long small_loss = std::min(enough, cases / (chunks_a_thread * std::max(1L, threads)));
  return std::max({least, small_loss, std::min(most, (cases - 1) / most_files + 1)});
}

CaseResult run_case(const CaseMaker& maker, long number) {
  scenario::Scenario scenario;
  return run_case(maker, number, scenario);
}

CaseResult run_case(const CaseMaker& maker, long number, scenario::Scenario& scenario,
                    const std::atomic<bool>* give_up) {
  CaseResult result;
  result.one.number = number;
  result.one.inputs = Eigen::ArrayXd::Constant(static_cast<Eigen::Index>(maker.inputs().size()),
                                               std::numeric_limits<double>::quiet_NaN());
  result.outcome = outcome_of_failure();
  Clock::time_point began = Clock::now();
  bool in_engine = false;
  try {
    result.one = maker.make_case(number);
    const bool keeps = keeps_history(maker.plan().histories, number);
    maker.make_scenario(result.one, scenario);
    // Rows nobody keeps are not recorded; how often they are changes nothing else, to the last bit.
    if (!keeps) scenario.stepping.output_every = 0.0;
    began = Clock::now();
    in_engine = true;
    const simulation::RunOutcome outcome =
        simulation::run(scenario, {}, keeps ? simulation::Rows::kept : simulation::Rows::left_out, give_up);
    result.engine_seconds = seconds_since(began);
    result.outcome = outcome_values(scenario, outcome);
    if (keeps) result.history.push_back(thin_history(number, outcome, maker.plan().histories.rows));
  } catch (const simulation::RunGivenUp&) {
    throw;
  } catch (const std::exception& error) {
    if (base::is_machine_fault(error)) throw;
    if (in_engine) result.engine_seconds = seconds_since(began);
    result.failure = error.what();
    result.outcome = outcome_of_failure();
    result.history.clear();
  }
  return result;
}

TimeSpent run_chunks(const ChunkWork& work, ChunkSource& source, const std::atomic<bool>& interrupted,
                     const std::function<void(const Tally&)>& tell) {
  Desk desk;
  desk.at_work = work.threads;
  // The threads hold on to one case each; this one is left free to let the other processes' wishes through.
  base::work_beside(
      work.threads, [&](int) { work_on(work, desk); },
      [&] {
        try {
          attend(work, desk, source, interrupted, tell);
        } catch (...) {
          desk.call_off(false);
          throw;
        }
      });
  return desk.spent;
}

}  // namespace dullcast::sweep
