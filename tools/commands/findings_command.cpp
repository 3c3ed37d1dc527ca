#include "engine/analysis/findings.hpp"
#include "engine/input/units.hpp"
#include "engine/storage/sweep_file.hpp"
#include "tools/commands/brief_findings.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/findings_report.hpp"
#include "tools/commands/findings_tables.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/usual_units.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

po::options_description findings_options() {
  po::options_description shown("Options");
  shown.add_options()("hottest-flat", po::value<std::string>()->value_name("T"),
                      "limit on the hottest flat, e.g. \"350 degC\"")(
      "expected-chips", po::value<double>()->value_name("X"),
      "limit on the chips to expect in a run, e.g. 0.5")(
      "limits-hold", po::value<double>()->default_value(0.9, "0.9")->value_name("SHARE"),
      "share of a point's draws that has to keep the limits")(
      "confidence", po::value<double>()->default_value(0.95, "0.95")->value_name("C"),
      "confidence of every interval")("point", po::value<long>()->value_name("N"),
                                      "tell the life at this point, not at the cheapest one")(
      "csv", po::value<std::string>()->value_name("FOLDER"),
      "also write every table as comma-separated values")(
      "brief", "when rework is due, the cheapest settings and what matters, in ten lines");
  add_units_option(shown);
  add_replace_option(shown);
  return shown;
}

analysis::FindingsOptions options_asked(const po::variables_map& values) {
  analysis::FindingsOptions options;
  options.confidence = values["confidence"].as<double>();
  // Bootstrap intervals need resamples enough for their tails.
  if (!(options.confidence >= 0.5 && options.confidence <= 0.995))
    throw WrongWords("--confidence lies between 0.5 and 0.995");
  options.limits.hold = values["limits-hold"].as<double>();
  if (!(options.limits.hold > 0.0 && options.limits.hold <= 1.0))
    throw WrongWords("--limits-hold is a share above 0 and up to 1");
  if (values.count("hottest-flat")) {
    try {
      options.limits.hottest_flat =
          input::UnitParser().parse(values["hottest-flat"].as<std::string>(), base::dimension::temperature);
    } catch (const input::UnitError& error) {
      throw WrongWords(std::string("--hottest-flat: ") + error.what());
    }
  }
  if (values.count("expected-chips")) {
    options.limits.expected_chips = values["expected-chips"].as<double>();
    if (!(options.limits.expected_chips >= 0.0))
      throw WrongWords("--expected-chips is a number of 0 or more");
  }
  if (values.count("point")) options.point = values["point"].as<long>();
  return options;
}

}  // namespace

int findings_command(const std::vector<std::string>& words) {
  const ReadOptions read = read_options(
      words,
      "dullcast findings SWEEP.h5 [--hottest-flat T] [--expected-chips X] [--point N] [--csv FOLDER] "
      "[options]\n\n"
      "Says what the runs of a sweep mean: when rework is due, the cheapest settings under limits and what "
      "they\n"
      "trade, and which numbers make the difference, each with what the number of draws leaves open.\n"
      "Ends with 0 when done, 2 for wrong options, 3 for a sweep that lacks what is asked, 4 for a file that "
      "cannot "
      "be\nread or written.\n",
      findings_options(), "sweep", 1);
  if (read.finished) return ended_well;
  const std::string file = named_file(read, "sweep", "sweep's file to look at");
  const analysis::FindingsOptions options = options_asked(read.values);
  const base::ShownUnits units = units_of(read.values);
  Outputs outputs(read.values);
  outputs.reads(file);
  if (read.values.count("csv")) outputs.will_fill(read.values["csv"].as<std::string>(), findings_files());
  const storage::SweepTable table = storage::read_sweep(file);
  analysis::Findings findings;
  try {
    findings = analysis::find_meaning(table, options);
  } catch (const std::logic_error& error) {  // std::invalid_argument and std::domain_error: the table's fault
    throw std::invalid_argument(file + ": " + error.what());
  }
  if (read.values.count("brief"))
    print_brief(std::cout, table, findings, units);
  else
    print_findings(std::cout, table, findings, units);
  if (read.values.count("csv")) write_findings(read.values["csv"].as<std::string>(), table, findings);
  return ended_well;
}

}  // namespace dullcast::commands
