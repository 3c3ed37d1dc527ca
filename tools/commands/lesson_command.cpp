#include "engine/base/output_place.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/engine_page.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/usual_units.hpp"
#include "tools/page_maker/page_files.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

int lesson_command(const std::vector<std::string>& words) {
  const po::options_description shown =
      engine_page_options("HTML file to write; without it, lesson.html, in results/ when there is one");
  const ReadOptions read = read_options(
      words,
      "dullcast lesson [-o lesson.html] [options]\n\n"
      "Writes a lesson for new drillers: short scenes in which they overheat a bit themselves and see why it "
      "kills cutters. The\npage carries the engine and drills in the browser; it needs no network and no "
      "folder beside it.\n"
      "Ends with 0 when done, 2 for wrong options, 3 for a library that cannot be used, 4 for a file that "
      "cannot be written.\n",
      shown, "", 0);
  if (read.finished) return ended_well;
  const std::string output =
      read.values.count("output") ? read.values["output"].as<std::string>() : usual_output("lesson", ".html");
  Outputs outputs(read.values);
  outputs.will_write(output);
  page_maker::Page page = engine_page(
      "lesson/lesson", read.values["library"].as<std::string>(),
      {std::string(page_maker::page_file("lesson/lesson.yaml")), "lesson.yaml", units_of(read.values)});
  page.title = "Heat and cutters: a lesson";
  base::write_text(output, page_maker::assemble_page(page));
  std::cout << "Written to " << output << "; open it in a browser\n";
  return ended_well;
}

}  // namespace dullcast::commands
