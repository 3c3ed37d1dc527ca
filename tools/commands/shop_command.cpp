#include <ctime>
#include <iostream>
#include <memory>

#include "engine/base/output_place.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/shop/run_shop.hpp"
#include "engine/shop/shop_plan_reader.hpp"
#include "engine/storage/shop_file.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/due_calendar.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/shop_csv.hpp"
#include "tools/commands/shop_report.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

po::options_description shop_options() {
  po::options_description shown("Options");
  shown.add_options()(
      "output,o", po::value<std::string>()->value_name("FILE"),
      "HDF5 file to write; without it, the plan's name with .h5, in results/ when there is one")(
      "calendar", po::value<std::string>()->value_name("FILE"),
      "also write due dates as an iCalendar file (.ics), for any calendar program")(
      "csv", po::value<std::string>()->value_name("FILE"),
      "also write weeks, bits and holes as comma-separated values, one file each")(
      "futures", po::value<int>()->value_name("N"), "in place of the plan's number of futures")(
      "as-planned",
      "only the plan as it stands: no benches, bits or shifts are added, no early pulls sought")(
      "brief", "the answer in a few lines");
  add_replace_option(shown);
  add_drilling_options(shown, "for the futures");
  return shown;
}

}  // namespace

int shop_command(const std::vector<std::string>& words) {
  const ReadOptions read = read_options(words,
                                        "dullcast shop PLAN.yaml [-o FILE.h5] [options]\n\n"
                                        "The shop's next months before the bits arrive. Drills the holes "
                                        "that are booked with the bits that there "
                                        "are, in many\nfutures of chance and of the library's numbers; sends "
                                        "what falls due over the shop's benches; "
                                        "and prints how many bits come\nin and when, how long they take, "
                                        "which holes wait for one, which cutters run "
                                        "out, and what one more bench, bit or shift\nwould change. dullcast "
                                        "report FILE.h5 makes a page of it.\n"
                                        "Ends with 0 when done, 2 for wrong options, 3 for a plan that "
                                        "cannot be used, 4 when the runs fail or a file "
                                        "cannot\nbe written.\n",
                                        shop_options(), "plan", 1);
  if (read.finished) return ended_well;
  const std::string file = named_file(read, "plan", "the shop's plan");
  const std::string library = library_folder(read.values["library"].as<std::string>(), file);
  shop::ShopOptions options;
  options.threads = threads_asked(read.values);
  options.changes = options.pulls = read.values.count("as-planned") == 0;
  const input::ScenarioReader reader(library);
  std::vector<input::Warning> warnings;
  shop::ShopPlan plan = shop::read_shop_plan(file, reader, warnings);
  tell_unwise(warnings);
  if (read.values.count("futures")) {
    plan.futures = read.values["futures"].as<int>();
    if (plan.futures < 2 || plan.futures > 100'000)
      throw WrongWords("--futures takes a number from 2 to 100000");
  }
  Outputs outputs(read.values);
  outputs.reads(library);
  for (const shop::PlanText& text : plan.texts) outputs.reads(text.file);
  const std::string output =
      read.values.count("output") ? read.values["output"].as<std::string>() : usual_output(file);
  outputs.will_write(output);
  const auto named = [&](const char* option) {
    return read.values.count(option) ? read.values[option].as<std::string>() : std::string();
  };
  const std::string calendar = named("calendar"), tables = named("csv");
  if (!calendar.empty()) outputs.will_write(calendar);
  if (!tables.empty()) {
    for (const std::string& table : shop_csv_files(tables)) outputs.will_write(table);
  }
  storage::ShopOutlook outlook;
  {
    std::unique_ptr<ProgressLine> line;
    std::string doing;
    options.progress = [&](const char* what, double done, double all) {
      if (doing != what) {
        line.reset();
        line = std::make_unique<ProgressLine>(doing = what);
      }
      line->tell(done, all);
    };
    outlook = shop::run_shop(plan, options);
  }
  outlook.plan_text = shop::texts_together(plan);
  storage::write_shop(output, outlook);
  if (!calendar.empty()) base::write_text(calendar, due_calendar(outlook, std::time(nullptr)));
  if (!tables.empty()) write_shop_csv(tables, outlook);
  print_shop(Sheet{std::cout}, outlook, read.values.count("brief") > 0);
  std::cout << "Written to " << output << "\n";
  return ended_well;
}

}  // namespace dullcast::commands
