#include "engine/analysis/told_again.hpp"
#include "engine/base/file_error.hpp"
#include "engine/storage/shop_file.hpp"
#include "tools/commands/brief_report.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/forecast_report.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/passages_csv.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/shop_csv.hpp"
#include "tools/commands/shop_report.hpp"
#include "tools/commands/told_run.hpp"
#include "tools/commands/usual_units.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

/// A shop's outlook again, with its tables where --csv asks for them.
void show_shop(const std::string& file, const po::variables_map& values, Outputs& outputs) {
  const storage::ShopOutlook outlook = storage::read_shop(file);
  const std::string csv = values.count("csv") ? values["csv"].as<std::string>() : "";
  if (!csv.empty())
    for (const std::string& table : shop_csv_files(csv)) outputs.will_write(table);
  try {
    print_shop(Sheet{std::cout}, outlook, values.count("brief") > 0);
    if (!csv.empty()) write_shop_csv(csv, outlook);
  } catch (const std::invalid_argument& error) {  // its time zone
    throw base::FileError(file, error.what());
  }
}

}  // namespace

int show_command(const std::vector<std::string>& words) {
  po::options_description shown("Options");
  shown.add_options()("brief",
                      "ten lines: due when, by which rule, band, hottest, verdict, what to do first")(
      "csv", po::value<std::string>()->value_name("FILE"),
      "also write every layer's passage as comma-separated values; of a shop's outlook its tables, beside "
      "FILE "
      "(_weeks, _bits, _holes, _changes)");
  add_replace_option(shown);
  add_units_option(shown);
  add_library_option(shown);
  const ReadOptions read =
      read_options(words,
                   "dullcast show RESULT.h5 [options]\n\n"
                   "Prints the forecast of a result again, as dullcast run printed it, in any units, without "
                   "running anything; of a shop's\noutlook what it comes to.\n"
                   "Ends with 0 when done, 2 for wrong options, 3 and 4 for a file that cannot be used.\n",
                   shown, "result", 1);
  if (read.finished) return ended_well;
  const std::string file = named_file(read, "result", "result to show");
  const base::ShownUnits units = units_of(read.values);
  Outputs outputs(read.values);
  outputs.reads(file);
  outputs.will_write_csv();
  storage::StoredRun run;
  try {
    run = storage::read_result(file);
  } catch (const storage::OtherKindOfFile& other) {
    if (!other.is(storage::shop_file)) throw;
    show_shop(file, read.values, outputs);
    return ended_well;
  }
  const scenario::Scenario scenario = scenario_of(run, read.values["library"].as<std::string>());
  const analysis::Forecast forecast = analysis::forecast_of(run, scenario);
  if (read.values.count("brief")) {
    print_brief(std::cout, scenario, run.outcome, run.band, forecast.learned_from > 0, units);
  } else {
    print_forecast(std::cout, forecast, analysis::survival_of(run, scenario), units, !run.band.empty());
  }
  outputs.write_csv([&](std::ostream& out) { write_passages_csv(out, run.outcome); });
  return ended_well;
}

}  // namespace dullcast::commands
