#include <filesystem>

#include "engine/base/output_place.hpp"
#include "engine/input/text_file.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/engine_page.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/usual_units.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

int what_if_command(const std::vector<std::string>& words) {
  const po::options_description shown = engine_page_options(
      "HTML file to write; without it, the scenario's name with _what_if.html, in results/ when there is "
      "one");
  const ReadOptions read = read_options(
      words,
      "dullcast what-if SCENARIO.yaml [-o what_if.html] [options]\n\n"
      "Writes a page that tries settings: a form over the scenario, the forecast and the run card for "
      "up to three settings side by\nside. The page carries the engine and the library, and drills in "
      "the browser, with nothing to install and no network.\n"
      "Ends with 0 when done, 2 for wrong options, 3 for a scenario that cannot be used, 4 for a file "
      "that cannot be\nread or written.\n",
      shown, "scenario", 1);
  if (read.finished) return ended_well;
  const std::string file = named_file(read, "scenario", "scenario to try settings of");
  const std::string library = library_folder(read.values["library"].as<std::string>(), file);
  const std::string output = read.values.count("output") ? read.values["output"].as<std::string>()
                                                         : usual_output(file, "_what_if.html");
  // A page of a scenario that cannot be read would only say so in the customer's hands.
  const scenario::Scenario scenario = ready_scenario(file, library, {}, true);
  Outputs outputs(read.values);
  outputs.reads(file);
  outputs.reads(scenario);
  outputs.will_write(output);
  if (!scenario.bit.continues.empty()) {
    throw std::invalid_argument(file +
                                ": bit.continues: goes on from an earlier result, which a page cannot open; "
                                "state starting_wear instead");
  }
  page_maker::Page page = engine_page(
      "what_if/what_if", library,
      {input::read_text_file(file), std::filesystem::path(file).filename().string(), units_of(read.values)});
  page.title = "What if: " + scenario.title;
  base::write_text(output, page_maker::assemble_page(page));
  std::cout << "Written to " << output << "; open it in a browser\n";
  return ended_well;
}

}  // namespace dullcast::commands
