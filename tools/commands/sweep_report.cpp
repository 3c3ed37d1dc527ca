#include "tools/commands/sweep_report.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <ostream>
#include <set>

#include "engine/base/file_error.hpp"
#include "engine/base/machine_fault.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/base/words.hpp"
#include "engine/input/yaml_lines.hpp"
#include "engine/sweep/sweep_size.hpp"
#include "tools/commands/findings_words.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/sweep_progress.hpp"

namespace dullcast::commands {
namespace {

/// A value on a line of its own, where both units have room.
std::string value_words(const storage::SweepColumn& column, double value, base::ShownUnits units) {
  if (std::isnan(value)) return "";
  std::string field = column_value_words(column, value, base::ShownUnits::field);
  if (units == base::ShownUnits::field) return field;
  const std::string si = column_value_words(column, value, base::ShownUnits::si);
  return units == base::ShownUnits::si || field == si ? si : field + " (" + si + ")";
}

/// The cases found unable to run, and why the one of the lowest number is.
struct Unable {
  std::set<long> numbers;
  std::string why;
  void add(long number, const std::string& sentence) {
    numbers.insert(number);
    if (*numbers.begin() == number) why = sentence;
  }
};

void print_cases(std::ostream& out, const sweep::CaseMaker& maker, const DryRun& dry, Unable& unable) {
  const long shown = std::min<long>(dry.show, maker.cases());
  for (long number = 1; number <= shown; ++number) {
    sweep::Case one = maker.make_case(number);
    scenario::Scenario scenario;
    std::string why;
    try {
      scenario = maker.make_scenario(one);
    } catch (const std::exception& error) {
      if (base::is_machine_fault(error)) throw;
      why = error.what();
      unable.add(number, why);
    }
    out << "  case " << number << " (point " << one.point << ", draw " << one.draw << ")\n";
    for (std::size_t k = 0; k < maker.inputs().size(); ++k) {
      const storage::SweepColumn& column = maker.inputs()[k];
      if (column.role == storage::ColumnRole::coordinate) continue;
      const std::string value = value_words(column, one.inputs(static_cast<Eigen::Index>(k)), dry.units);
      if (!value.empty()) out << "    " << column.name << ": " << value << "\n";
    }
    if (!why.empty()) {
      out << "    cannot be run: " << why << "\n";
      continue;
    }
    if (dry.scenarios.empty()) continue;
    const auto file = std::filesystem::path(dry.scenarios) / ("case_" + std::to_string(number) + ".yaml");
    std::ofstream text(file);
    text << scenario.text;
    text.close();
    if (!text) throw base::FileError(file.string(), "cannot be written");
  }
  if (!dry.scenarios.empty())
    out << "Their scenarios, with every value written out, are in " << dry.scenarios << "\n";
}

struct Sample {
  long ran = 0, failed = 0;
  double each = 0.0, longest = 0.0;  // s
};

/// Runs cases spread over the sweep, for neighbours are alike.
Sample run_sample(const sweep::CaseMaker& maker, const DryRun& dry, Unable& unable) {
  const auto began = std::chrono::steady_clock::now();
  const auto passed = [&] {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  };
  const long cases = maker.cases();
  ProgressLine line("Trying some runs");
  Sample sample;
  while (sample.ran < std::min<long>(cases, 200) && (sample.ran < 2 || passed() < dry.sample_seconds)) {
    const double before = passed();
    line.tell(before, dry.sample_seconds);
    const double place = std::fmod(static_cast<double>(sample.ran) * 0.6180339887498949, 1.0);
    const long number = std::min(cases, 1 + static_cast<long>(place * static_cast<double>(cases)));
    const sweep::CaseResult result = sweep::run_case(maker, number);
    if (!result.failure.empty()) {
      ++sample.failed;
      unable.add(number, result.failure);
    }
    sample.longest = std::max(sample.longest, passed() - before);
    ++sample.ran;
  }
  sample.each = passed() / static_cast<double>(sample.ran);
  return sample;
}

/// Makes cases from the first on without running them, until the time for that is over.
void make_cases(const sweep::CaseMaker& maker, const DryRun& dry, Unable& unable) {
  const auto until = std::chrono::steady_clock::now() + std::chrono::duration<double>(dry.making_seconds);
  ProgressLine line("Making cases");
  scenario::Scenario scenario;
  for (long number = 1; number <= maker.cases() && std::chrono::steady_clock::now() < until; ++number) {
    line.tell(static_cast<double>(number), static_cast<double>(maker.cases()));
    sweep::Case one = maker.make_case(number);
    try {
      maker.make_scenario(one, scenario);
    } catch (const std::exception& error) {
      if (base::is_machine_fault(error)) throw;
      unable.add(number, error.what());
    }
  }
}

}  // namespace

std::string print_dry_run(std::ostream& out, const sweep::CaseMaker& maker,
                          const sweep::SweepManifest& beginning, const DryRun& dry) {
  const sweep::SweepPlan& plan = maker.plan();
  const long cases = maker.cases();
  out << plan.title << "\n\n"
      << cases << " runs: " << maker.points() << (maker.points() == 1 ? " point" : " points")
      << " of a design by " << sweep::design_word(plan.design.kind);
  if (plan.draws.runs > 1) out << ", " << plan.draws.runs << " draws at each";
  out << ".\nWritten in " << sweep::chunks_of(cases, beginning.cases_per_chunk) << " parts of "
      << beginning.cases_per_chunk
      << " runs; a night that is killed loses at most those in hand.\n\nThe first cases:\n";
  Unable unable;
  print_cases(out, maker, dry, unable);
  out << "\nTrying some runs, for up to " << lasting(dry.sample_seconds) << " ...\n" << std::flush;
  const Sample sample = run_sample(maker, dry, unable);
  make_cases(maker, dry, unable);
  const double workers = static_cast<double>(dry.threads) * dry.ranks;
  char text[160];
  std::snprintf(text, sizeof text, "A sample of %ld took %.2g s a run on one thread (the longest %.2g s)",
                sample.ran, sample.each, sample.longest);
  out << text;
  if (sample.failed > 0) out << "; " << sample.failed << " of it failed";
  out << ".\nEstimate: " << lasting(sample.each * static_cast<double>(cases) / workers) << " on " << workers
      << (workers == 1.0 ? " thread" : " threads") << ", and "
      << base::show_bytes(sweep::bytes_of_case(maker) * static_cast<double>(cases))
      << " of results (about as much again while parts gather).\n"
      << "Nothing was written.\n";
  if (unable.numbers.empty()) return "";
  return std::to_string(unable.numbers.size()) + " of the cases tried cannot be run; the first is case " +
         std::to_string(*unable.numbers.begin()) + ": " + unable.why;
}

void print_sweep(std::ostream& out, const sweep::ExecutionResult& night,
                 const sweep::ExecutionOptions& options, int ranks) {
  constexpr std::size_t most_named = 10;
  for (std::size_t k = 0; k < std::min(most_named, night.damaged.size()); ++k)
    out << night.damaged[k] << "; run again (the old file is kept as .damaged)\n";
  if (night.damaged.size() > most_named)
    out << "... and " << night.damaged.size() - most_named << " more that were damaged\n";
  if (night.was_finished) {
    out << "This sweep is finished already: " << options.output << " holds its " << night.cases << " runs.\n";
    return;
  }
  const long done = night.kept_before + night.now.cases;
  out << done << " of " << night.cases << " runs done";
  if (night.kept_before > 0) out << ", " << night.kept_before << " of them by earlier nights";
  char text[200];
  if (night.now.cases > 0 && night.seconds > 0.0) {
    std::snprintf(text, sizeof text, "; %ld in %s, %.3g a second on %d", night.now.cases,
                  lasting(night.seconds).c_str(), static_cast<double>(night.now.cases) / night.seconds,
                  night.threads * ranks);
    out << text << (night.threads * ranks == 1 ? " thread" : " threads");
    std::snprintf(text, sizeof text, ", %.1f %% of the time outside the engine",
                  100.0 * night.spent.outside());
    out << text;
  }
  out << ".\n";
  if (night.now.failures > 0)
    out << night.now.failures << " of them failed; dullcast findings names them, and dullcast run --from "
        << options.output << " --case N runs one again.\n";
  if (!night.finished) {
    out << "Stopped before the end; what is done is kept in " << options.output
        << ".parts. Go on with --resume.\n";
    return;
  }
  out << "Written to " << options.output << "\nRead it with: dullcast findings " << options.output << "\n"
      << "Results are estimates. They replace neither inspection nor local codes nor a licensed driller's "
         "judgement.\n";
}

void write_sweep_csv(std::ostream& out, const storage::SweepTable& table) {
  out << "case,point,draw";
  for (const storage::SweepColumn& column : table.columns) {
    out << "," << base::csv_cell(column.name + (column.units == "1" ? "" : " [" + column.units + "]"));
  }
  out << "\n";
  for (long number = 1; number <= table.cases(); ++number) {
    out << number << "," << (number - 1) / table.draws + 1 << "," << (number - 1) % table.draws + 1;
    for (const storage::SweepColumn& column : table.columns) {
      const double value = column.values(number - 1);
      out << ",";
      if (std::isnan(value)) continue;
      if (column.words.empty()) {
        out << input::exact_text(value);
      } else {
        out << base::csv_cell(column.words.at(static_cast<std::size_t>(value)));
      }
    }
    out << "\n";
  }
}

}  // namespace dullcast::commands
