#include "tools/commands/engine_page.hpp"

#include <boost/archive/iterators/base64_from_binary.hpp>
#include <boost/archive/iterators/transform_width.hpp>
#include <nlohmann/json.hpp>
#include <string_view>

#include "engine/input/library.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/usual_units.hpp"
#include "tools/page_maker/page_files.hpp"

namespace dullcast::commands {
namespace {

/// RFC 4648, section 4.
std::string base64(std::string_view bytes) {
  namespace iterators = boost::archive::iterators;
  using Letters =
      iterators::base64_from_binary<iterators::transform_width<std::string_view::const_iterator, 6, 8>>;
  std::string text(Letters(bytes.begin()), Letters(bytes.end()));
  text.append((3 - bytes.size() % 3) % 3, '=');
  return text;
}

std::string dumped(const nlohmann::json& value) {
  return value.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

const char* word_of(base::ShownUnits units) {
  if (units == base::ShownUnits::si) return "si";
  return units == base::ShownUnits::field ? "field" : "both";
}

}  // namespace

boost::program_options::options_description engine_page_options(const std::string& output) {
  namespace po = boost::program_options;
  po::options_description shown("Options");
  shown.add_options()("output,o", po::value<std::string>()->value_name("FILE"), output.c_str());
  add_replace_option(shown);
  add_units_option(shown);
  shown.add_options()("library", po::value<std::string>()->default_value("")->value_name("FOLDER"),
                      "folder of rocks, grades, lots, fluids, bodies, bits and model numbers");
  return shown;
}

page_maker::Page engine_page(const std::string& body, const std::string& style, const std::string& library,
                             const PageScenario& scenario) {
  page_maker::Page page;
  page.runs_engine = true;
  page.styles = {"parts/style.css", "parts/card.css", style};
  page.body = body;
  page.scripts = {"third_party/d3/d3.min.js"};
  for (const char* part : {"units", "shell", "colours", "rock_patterns", "figure_size", "run_rows",
                           "save_figure", "bit_shapes", "bit_view", "tracks", "card", "engine"})
    page.scripts.push_back(std::string("parts/") + part + ".js");
  const input::LibraryTexts texts = input::read_library_texts(library_folder(library, scenario.file));
  page.data = {
      {"page-data",
       dumped({{"scenario", scenario.text}, {"file", scenario.file}, {"units", word_of(scenario.units)}})},
      {"library", dumped({{"folder", "library"}, {"files", texts.files}})},
      {"engine", dumped({{"program", std::string(page_maker::page_file("engine/program.js"))},
                         {"code", base64(page_maker::page_file("engine/program.wasm.gz"))}})}};
  return page;
}

}  // namespace dullcast::commands
