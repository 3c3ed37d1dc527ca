#include "engine/base/output_place.hpp"
#include "engine/pages/card_view.hpp"
#include "engine/pages/json_parts.hpp"
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

po::options_description card_options() {
  po::options_description shown("Options");
  shown.add_options()("output,o", po::value<std::string>()->value_name("FILE"),
                      "HTML file to write; without it, the file's name with _card.html, in results/ when "
                      "there is one")("central-only",
                                      "of a scenario only the central run: no low and high ends");
  add_replace_option(shown);
  add_units_option(shown);
  add_drilling_options(shown, "for the trial holes and the runs that find the band");
  return shown;
}

}  // namespace

int card_command(const std::vector<std::string>& words) {
  const ReadOptions read = read_options(
      words,
      "dullcast card FILE [-o card.html] [options]\n\n"
      "Writes one page for the driller's cab: by depth the rock, the weight, speed and least flow to hold, "
      "what to watch for, and\nwhen to pull. FILE is a result (.h5) or a scenario (.yaml), which is drilled "
      "for it and not kept.\n"
      "Ends with 0 when done, 2 for wrong options, 3 for a scenario that cannot be used, 4 for a file that "
      "cannot be\nread or written.\n",
      card_options(), "file", 1);
  if (read.finished) return ended_well;
  const std::string file = named_file(read, "file", "result or scenario to make a card of");
  const base::ShownUnits units = units_of(read.values);
  PageRunOptions options;
  options.library = read.values["library"].as<std::string>();
  options.threads = threads_asked(read.values);
  options.band = read.values.count("central-only") == 0;
  const std::string output = read.values.count("output") ? read.values["output"].as<std::string>()
                                                         : usual_output(file, "_card.html");
  Outputs outputs(read.values);
  reads_for_pages(outputs, {file}, options.library);
  outputs.will_write(output);
  const PageRun run = page_run(file, options);
  ProgressLine progress("Trying flows");
  const nlohmann::json card = pages::card_view(
      run.scenario, run.outcome, run.band,
      pages::card_flows(run.scenario, options.threads, [&](int done, int all) { progress.tell(done, all); }),
      view_options(run, units));
  page_maker::Page page;
  page.title = "Run card: " + run.scenario.title;
  page.styles = {"parts/style.css", "parts/card.css"};
  page.body = "card/card.html";
  page.scripts = {"card/card_page.js"};
  page.data = {{"card-data", pages::json_text(card)}};
  base::write_text(output, page_maker::assemble_page(page));
  std::cout << "Written to " << output << "\n";
  return ended_well;
}

}  // namespace dullcast::commands
