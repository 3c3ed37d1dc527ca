#include "tools/commands/sweep_report.hpp"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <ostream>

#include "engine/base/file_error.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/base/words.hpp"
#include "engine/input/yaml_lines.hpp"
#include "tools/commands/sweep_progress.hpp"

namespace dullcast::commands {
namespace {

std::string size_words(double bytes) {
  const char* units[] = {"B", "kB", "MB", "GB", "TB"};
  std::size_t k = 0;
  while (bytes >= 1000.0 && k + 1 < std::size(units)) {
    bytes /= 1000.0;
    ++k;
  }
  return base::plain_number(std::round(bytes * 10.0) / 10.0) + " " + units[k];
}

std::string value_words(const storage::SweepColumn& column, double value) {
  if (std::isnan(value)) return "";
  if (!column.words.empty()) return column.words.at(static_cast<std::size_t>(value));
  char text[32];
  std::snprintf(text, sizeof text, "%.5g", value);
  return text + (column.units == "1" ? std::string() : " " + column.units);
}

void print_cases(std::ostream& out, const sweep::CaseMaker& maker, const DryRun& dry) {
  const long shown = std::min<long>(dry.show, maker.cases());
  for (long number = 1; number <= shown; ++number) {
    sweep::Case one = maker.make_case(number);
    const scenario::Scenario scenario = maker.make_scenario(one);
    out << "  case " << number << " (point " << one.point << ", draw " << one.draw << ")\n";
    for (std::size_t k = 0; k < maker.inputs().size(); ++k) {
      const storage::SweepColumn& column = maker.inputs()[k];
      if (column.role == storage::ColumnRole::coordinate) continue;
      const std::string value = value_words(column, one.inputs(static_cast<Eigen::Index>(k)));
      if (!value.empty()) out << "    " << column.name << ": " << value << "\n";
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

}  // namespace

void print_dry_run(std::ostream& out, const sweep::CaseMaker& maker, const sweep::SweepManifest& beginning,
                   const DryRun& dry) {
  const sweep::SweepPlan& plan = maker.plan();
  const long cases = maker.cases();
  out << plan.title << "\n\n"
      << cases << " runs: " << maker.points() << (maker.points() == 1 ? " point" : " points")
      << " of a design by " << sweep::design_word(plan.design.kind);
  if (plan.draws.runs > 1) out << ", " << plan.draws.runs << " draws at each";
  out << ".\nWritten in " << sweep::chunks_of(cases, beginning.cases_per_chunk) << " parts of "
      << beginning.cases_per_chunk
      << " runs; a night that is killed loses at most those in hand.\n\nThe first cases:\n";
  print_cases(out, maker, dry);

  // Spread over the sweep, for neighbours are alike.
  const auto began = std::chrono::steady_clock::now();
  const auto passed = [&] {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  };
  long ran = 0, failed = 0;
  double longest = 0.0;
  while (ran < std::min<long>(cases, 200) && (ran < 2 || passed() < dry.sample_seconds)) {
    const double before = passed();
    const long number = 1 + static_cast<long>(std::fmod(static_cast<double>(ran) * 0.6180339887498949, 1.0) *
                                              static_cast<double>(cases));
    const sweep::CaseResult result = sweep::run_case(maker, std::min(number, cases));
    if (!result.failure.empty() && failed++ == 0)
      out << "\nCase " << number << " of the sample fails: " << result.failure << "\n";
    longest = std::max(longest, passed() - before);
    ++ran;
  }
  const double each = passed() / static_cast<double>(ran);
  const double columns = static_cast<double>(maker.inputs().size() + sweep::outcome_columns().size() + 3);
  double kept = static_cast<double>(plan.histories.cases.size());
  if (plan.histories.every > 0)
    kept += std::ceil(static_cast<double>(cases) / static_cast<double>(plan.histories.every));
  const double bytes =
      8.0 * columns * static_cast<double>(cases) +
      8.0 * kept * plan.histories.rows * static_cast<double>(sweep::history_columns().size());
  const double workers = static_cast<double>(dry.threads) * dry.ranks;
  char text[160];
  std::snprintf(text, sizeof text, "\nA sample of %ld took %.2g s a run on one thread (the longest %.2g s)",
                ran, each, longest);
  out << text;
  if (failed > 0) out << "; " << failed << " of it failed";
  out << ".\nEstimate: " << lasting(each * static_cast<double>(cases) / workers) << " on " << workers
      << (workers == 1.0 ? " thread" : " threads") << ", and " << size_words(bytes)
      << " of results (about as much again while parts gather).\n"
      << "Nothing was written.\n";
}

void print_sweep(std::ostream& out, const sweep::ExecutionResult& night,
                 const sweep::ExecutionOptions& options, int ranks) {
  for (const std::string& damaged : night.damaged)
    out << damaged << "; run again (the old file is kept as .damaged)\n";
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
                  options.threads * ranks);
    out << text << (options.threads * ranks == 1 ? " thread" : " threads");
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
