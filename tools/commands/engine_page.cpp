#include "tools/commands/engine_page.hpp"

#include <boost/archive/iterators/base64_from_binary.hpp>
#include <boost/archive/iterators/transform_width.hpp>
#include <string_view>

#include "engine/input/library.hpp"
#include "engine/pages/json_parts.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/ready_scenario.hpp"
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

}  // namespace

boost::program_options::options_description engine_page_options(const std::string& output) {
  namespace po = boost::program_options;
  po::options_description shown("Options");
  shown.add_options()("output,o", po::value<std::string>()->value_name("FILE"), output.c_str());
  add_replace_option(shown);
  add_units_option(shown);
  add_library_option(shown);
  return shown;
}

page_maker::Page engine_page(const std::string& name, const std::string& library,
                             const PageScenario& scenario) {
  page_maker::Page page;
  page.runs_engine = true;
  page.styles = {"parts/style.css", "parts/card.css", name + ".css"};
  page.body = name + ".html";
  page.scripts = {name + ".js"};
  const input::LibraryTexts texts = input::read_library_texts(library_folder(library, scenario.file));
  page.data = {
      {"page-data", pages::json_text({{"scenario", scenario.text},
                                      {"file", scenario.file},
                                      {"units", pages::units_word(scenario.units)}})},
      {"library-data", pages::json_text({{"folder", "library"}, {"files", texts.files}})},
      {"engine-data", pages::json_text({{"program", std::string(page_maker::page_file("engine/program.js"))},
                                        {"code", base64(page_maker::page_file("engine/program.wasm.gz"))}})}};
  return page;
}

}  // namespace dullcast::commands
