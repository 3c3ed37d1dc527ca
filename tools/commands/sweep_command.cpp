#include <atomic>
#include <csignal>
#include <exception>
#include <filesystem>
#include <fstream>
#include <optional>
#include <thread>

#include "engine/base/display.hpp"
#include "engine/base/file_error.hpp"
#include "engine/base/output_place.hpp"
#include "engine/base/program_version.hpp"
#include "engine/sweep/sweep_execution.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/sweep_inputs.hpp"
#include "tools/commands/sweep_progress.hpp"
#include "tools/commands/sweep_report.hpp"
#include "tools/commands/usual_units.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

// A signal handler can reach nothing else.
std::atomic<bool> interrupted{false};
static_assert(std::atomic<bool>::is_always_lock_free);

void interrupt(int) {
  interrupted = true;
}

/// Ctrl-C, a batch queue's end of time and a terminal that is closed stop a sweep; a second Ctrl-C kills.
void stop_when_told() {
  struct sigaction action {};
  action.sa_handler = interrupt;
  action.sa_flags = SA_RESETHAND;
  for (const int signal : {SIGINT, SIGTERM}) sigaction(signal, &action, nullptr);
  // A closed terminal is told twice, by the system and by the shell; nohup wants it not to matter at all.
  action.sa_flags = 0;
  struct sigaction before {};
  if (sigaction(SIGHUP, nullptr, &before) == 0 && before.sa_handler != SIG_IGN)
    sigaction(SIGHUP, &action, nullptr);
}

po::options_description sweep_options() {
  const int cores = static_cast<int>(std::max(1u, std::thread::hardware_concurrency()));
  po::options_description shown("Options");
  shown.add_options()(
      "output,o", po::value<std::string>()->value_name("FILE"),
      "HDF5 file to write; without it, the plan's name with .h5, in results/ when there is one")(
      "threads", po::value<int>()->default_value(cores)->value_name("N"), "threads of each process")(
      "resume", "go on where an earlier night stopped, or begin")(
      "dry-run", "run nothing but a timed sample: number of runs, first cases, time and disk")(
      "show", po::value<int>()->default_value(5)->value_name("N"), "how many cases the dry run shows")(
      "scenarios", po::value<std::string>()->default_value("")->value_name("FOLDER"),
      "the dry run also writes those cases' scenarios there, with every value written out")(
      "csv", po::value<std::string>()->value_name("FILE"), "also write every run as comma-separated values")(
      "cases-per-part", po::value<long>()->value_name("N"),
      "runs to a part file; the results do not depend on it")(
      "keep-parts", "leave the part files beside the finished sweep")(
      "other-machine", "go on although this machine's arithmetic differs in the last digit")(
      "library", po::value<std::string>()->default_value("")->value_name("FOLDER"),
      "folder of rocks, grades, lots, fluids, bodies, bits and model numbers");
  add_units_option(shown);
  shown.add_options()("replace", "write over the file of --csv when it is there already");
  return shown;
}

sweep::ExecutionOptions night_options(const po::variables_map& values, const std::string& plan) {
  sweep::ExecutionOptions options;
  options.output = values.count("output") ? values["output"].as<std::string>() : usual_output(plan);
  options.threads = threads_asked(values);
  options.resume = values.count("resume") > 0;
  options.other_machine = values.count("other-machine") > 0;
  options.keep_parts = values.count("keep-parts") > 0;
  options.program_version = base::program_version();
  options.program_commit = base::program_commit();
  return options;
}

/// Whether all cases that were tried can be run; the first that cannot is told.
bool dry_run(const po::variables_map& values, const sweep::SweepManifest& beginning,
             const sweep::CaseMaker& maker, int threads, int ranks) {
  DryRun dry;
  dry.units = units_of(values);
  dry.show = values["show"].as<int>();
  dry.scenarios = values["scenarios"].as<std::string>();
  dry.threads = threads;
  dry.ranks = ranks;
  const std::string unable = print_dry_run(std::cout, maker, beginning, dry);
  std::cout << std::flush;
  if (!unable.empty()) std::cerr << beginning.texts.plan_file << ": " << unable << "\n";
  return unable.empty();
}

void write_csv(const std::string& sweep, const std::string& file) {
  std::ofstream out(file);
  if (!out) throw base::FileError(file, "cannot be written");
  write_sweep_csv(out, storage::read_sweep(sweep));
  out.close();
  if (!out) throw base::FileError(file, "could not be written whole");
}

/// Refuses outputs that would write over what the sweep reads, or over each other.
void check_outputs(const po::variables_map& values, const sweep::SweepManifest& beginning,
                   const std::string& output) {
  Outputs outputs(values);
  for (const std::string& file : {beginning.texts.plan_file, beginning.texts.scenario_file,
                                  beginning.texts.table_file, beginning.texts.library.folder})
    outputs.reads(file);
  // Whether the sweep's own file may be there is for --resume to say.
  base::refuse_inputs(output, {beginning.texts.plan_file, beginning.texts.scenario_file,
                               beginning.texts.table_file, beginning.texts.library.folder});
  outputs.reads(output);
  if (values.count("csv")) outputs.will_write(values["csv"].as<std::string>());
}

/// What a night needs, read and checked.
struct Prepared {
  sweep::ExecutionOptions options;
  sweep::SweepManifest beginning;
  bool dry = false;
  bool can_run = true;  // as far as a dry run found out
};

Prepared prepare(const sweep::Ranks& ranks, const po::variables_map& values) {
  if (values.count("plan") == 0) throw WrongWords("name the plan to run");
  const std::string plan_file = values["plan"].as<std::vector<std::string>>().front();
  Prepared ready{night_options(values, plan_file),
                 read_sweep_inputs(plan_file, values["library"].as<std::string>())};
  sweep::SweepManifest& beginning = ready.beginning;
  std::vector<input::Warning> warnings;
  constexpr std::size_t some_seconds = 500'000;  // bytes of a table
  if (beginning.texts.table.size() > some_seconds && ranks.first())
    std::cerr << "Reading " << beginning.texts.table_file << ", "
              << base::show_bytes(static_cast<double>(beginning.texts.table.size())) << " ...\n";
  const sweep::CaseMaker maker(beginning.texts, warnings);
  if (ranks.first()) tell_unwise(warnings);
  const long threads = static_cast<long>(ready.options.threads) * ranks.count();
  beginning.cases_per_chunk = maker.plan().cases_per_chunk > 0
                                  ? maker.plan().cases_per_chunk
                                  : sweep::usual_cases_per_chunk(maker.cases(), threads);
  if (values.count("cases-per-part")) beginning.cases_per_chunk = values["cases-per-part"].as<long>();
  if (beginning.cases_per_chunk < 1) throw WrongWords("--cases-per-part is at least 1");
  if (beginning.cases_per_chunk > sweep::most_cases_per_chunk)
    throw WrongWords("--cases-per-part is at most " + std::to_string(sweep::most_cases_per_chunk) +
                     ", for a part is held in memory until it is whole");
  ready.dry = values.count("dry-run") > 0;
  if (ready.dry) {
    if (ranks.first())
      ready.can_run = dry_run(values, beginning, maker, ready.options.threads, ranks.count());
    return ready;
  }
  if (ranks.first()) check_outputs(values, beginning, ready.options.output);
  // A first case that cannot even be read is a slip in the plan: better told now than by every run.
  sweep::Case one = maker.make_case(1);
  maker.make_scenario(one);
  for (std::string* file :
       {&beginning.texts.plan_file, &beginning.texts.scenario_file, &beginning.texts.table_file}) {
    *file = std::filesystem::path(*file).filename().string();
  }
  return ready;
}

/// Does something that all ranks do alike; when it fails on any, rank 0 throws and the others return nothing.
template <class Work>
auto together(const sweep::Ranks& ranks, const Work& work) -> std::optional<decltype(work())> {
  std::optional<decltype(work())> done;
  std::exception_ptr failure;
  std::string sentence;
  try {
    done = work();
  } catch (const std::exception& error) {
    failure = std::current_exception();
    sentence = error.what();
  }
  sentence = ranks.first_complaint(sentence);
  if (sentence.empty()) return done;
  if (!ranks.first()) return std::nullopt;
  if (failure) std::rethrow_exception(failure);
  throw std::runtime_error(sentence);
}

}  // namespace

int sweep_command(const std::vector<std::string>& words) {
  const ReadOptions read = read_options(
      words,
      "dullcast sweep PLAN.yaml [--threads N] [--resume] [--dry-run] [-o FILE] [options]\n\n"
      "Runs every what-if of a plan, on all threads or, started by mpirun or srun, on many machines, and "
      "puts\n"
      "what they came to in one HDF5 file. Stopped at any instant, it goes on with --resume; the finished "
      "file\n"
      "is the same to the last byte.\n"
      "Ends with 0 when all runs are done, 2 for wrong options, 3 for a plan that cannot be used (a dry run: "
      "or\n"
      "one with cases that cannot be run), 4 when it stopped before the end.\n",
      sweep_options(), "plan", 1);
  if (read.finished) return ended_well;
  // Who no longer reads what is said (head, less, a log's end) stops no night.
  if (read.values.count("dry-run") == 0) std::signal(SIGPIPE, SIG_IGN);
  const sweep::Ranks ranks;
  const auto ready = together(ranks, [&] { return prepare(ranks, read.values); });
  if (!ready) return failed;
  if (ready->dry) return ready->can_run ? ended_well : wrong_input;
  const sweep::ExecutionOptions& options = ready->options;
  stop_when_told();
  const auto night = together(ranks, [&] {
    SweepProgress progress(units_of(read.values));
    // Each begins with its work: what it took before says nothing of what is left.
    std::optional<ProgressLine> looking, collating;
    const auto line = [](std::optional<ProgressLine>& of, const char* what) {
      return [&of, what](double done, double all) {
        if (!of) of.emplace(what);
        of->tell(done, all);
      };
    };
    return sweep::execute_sweep(
        ready->beginning, options, ranks, interrupted,
        [&](const sweep::Tally& now, long cases, long before) { progress.tell(now, cases, before); },
        {line(looking, "Looking through the parts"), line(collating, "Putting the parts together")});
  });
  if (!night) return failed;
  if (ranks.first()) {
    print_sweep(std::cout, *night, options, ranks.count());
    if (night->finished && read.values.count("csv")) {
      write_csv(options.output, read.values["csv"].as<std::string>());
    }
  }
  return night->finished ? ended_well : failed;
}

}  // namespace dullcast::commands
