#include <stdexcept>

#include "engine/analysis/findings.hpp"
#include "engine/analysis/operating_window.hpp"
#include "engine/base/output_place.hpp"
#include "engine/pages/json_parts.hpp"
#include "engine/pages/shop_view.hpp"
#include "engine/pages/sweep_view.hpp"
#include "engine/pages/window_view.hpp"
#include "engine/storage/shop_file.hpp"
#include "engine/storage/stored_file.hpp"
#include "engine/storage/sweep_file.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/page_run.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/usual_units.hpp"
#include "tools/page_maker/assemble_page.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

po::options_description report_options() {
  po::options_description shown("Options");
  shown.add_options()(
      "output,o", po::value<std::string>()->value_name("FILE"),
      "HTML file to write; without it, the first file's name with .html, in results/ when there is one")(
      "central-only", "of scenarios only the central run: no low and high ends")(
      "windows",
      "also where each run's bit may be run, layer by layer: weight against speed (takes seconds a "
      "layer)");
  add_replace_option(shown);
  add_units_option(shown);
  add_drilling_options(shown, "for the runs that find the band");
  return shown;
}

page_maker::Page report_page(const std::string& title) {
  page_maker::Page page;
  page.title = title;
  page.styles = {"parts/style.css", "report/shop.css"};
  page.body = "report/report.html";
  page.scripts = {"report/report.js"};
  return page;
}

nlohmann::json windows_of(const scenario::Scenario& scenario, int threads) {
  std::vector<analysis::OperatingWindow> all;
  ProgressLine line("Trying settings");
  const auto count = static_cast<int>(scenario.column.layers.size());
  for (int layer = 0; layer < count; ++layer) {
    analysis::WindowOptions how;
    how.layer = layer;
    how.threads = threads;
    how.progress = [&](double done, double whole) { line.tell(layer + done / whole, count); };
    all.push_back(analysis::operating_window(scenario, how));
  }
  return pages::window_views(all);
}

pages::RunViewOptions usual_view(const std::string& file, base::ShownUnits units) {
  pages::RunViewOptions options;
  options.name = file;
  options.made_by = version_line();
  options.units = units;
  return options;
}

nlohmann::json view_of_shop(const std::string& file, const storage::ShopOutlook& outlook,
                            base::ShownUnits units) {
  try {
    return pages::shop_view(outlook, usual_view(file, units));
  } catch (const std::logic_error& error) {  // its time zone
    throw std::invalid_argument(file + ": " + error.what());
  }
}

nlohmann::json view_of_sweep(const std::string& file, const storage::SweepTable& table,
                             base::ShownUnits units) {
  analysis::FindingsOptions how;
  how.confidence = 0.95;
  try {
    return pages::sweep_view(table, analysis::find_meaning(table, how), storage::read_sweep_courses(file),
                             usual_view(file, units));
  } catch (const std::logic_error& error) {  // std::invalid_argument and std::domain_error: the table's fault
    throw std::invalid_argument(file + ": " + error.what());
  }
}

}  // namespace

int report_command(const std::vector<std::string>& words) {
  const ReadOptions read =
      read_options(words,
                   "dullcast report FILE... [-o report.html] [options]\n\n"
                   "Writes one page to look at, hand on and print, which needs no network and no folder "
                   "beside it. A FILE is a result, a\n"
                   "sweep or a shop's outlook (.h5), or a scenario (.yaml), which is drilled for it and not "
                   "kept; several are "
                   "set side by side.\n"
                   "Ends with 0 when done, 2 for wrong options, 3 for a scenario that cannot be used, 4 for "
                   "a file that cannot be\nread or written.\n",
                   report_options(), "file", -1);
  if (read.finished) return ended_well;
  const auto files = read.values.count("file") ? read.values["file"].as<std::vector<std::string>>()
                                               : std::vector<std::string>{};
  if (files.empty()) throw WrongWords("name a result, a sweep, a shop's outlook or a scenario to report on");
  constexpr std::size_t most_files = 12;
  if (files.size() > most_files)
    throw WrongWords("reports on at most " + std::to_string(most_files) + " at once");
  const base::ShownUnits units = units_of(read.values);
  PageRunOptions options;
  options.library = read.values["library"].as<std::string>();
  options.threads = threads_asked(read.values);
  options.band = read.values.count("central-only") == 0;
  const std::string output = read.values.count("output") ? read.values["output"].as<std::string>()
                                                         : usual_output(files.front(), ".html");
  Outputs outputs(read.values);
  reads_for_pages(outputs, files, options.library);
  outputs.will_write(output);
  nlohmann::json runs = nlohmann::json::array(), sweeps = runs, shops = runs;
  std::string title;
  const bool windows = read.values.count("windows") > 0;
  for (const std::string& file : files) {
    PageRun run;
    try {
      run = page_run(file, options);
    } catch (const storage::OtherKindOfFile& other) {
      if (other.is(storage::shop_file)) {
        const storage::ShopOutlook outlook = storage::read_shop(file);
        shops.push_back(view_of_shop(file, outlook, units));
        if (title.empty()) title = outlook.title;
        continue;
      }
      if (!other.is(storage::sweep_file)) throw;
      const storage::SweepTable sweep = storage::read_sweep(file);
      sweeps.push_back(view_of_sweep(file, sweep, units));
      if (title.empty()) title = sweep.title;
      continue;
    }
    nlohmann::json view = pages::run_view(run.scenario, run.outcome, run.band, view_options(run, units));
    if (windows) view["windows"] = windows_of(run.scenario, options.threads);
    runs.push_back(std::move(view));
    if (title.empty()) title = run.scenario.title;
  }
  page_maker::Page page = report_page(title);
  page.data = {{"runs-data", pages::json_text(runs)},
               {"sweeps-data", pages::json_text(sweeps)},
               {"shops-data", pages::json_text(shops)}};
  base::write_text(output, page_maker::assemble_page(page));
  std::cout << "Written to " << output << "\n";
  return ended_well;
}

}  // namespace dullcast::commands
