#pragma once

#include <boost/program_options.hpp>
#include <string>

#include "engine/base/display.hpp"
#include "tools/page_maker/assemble_page.hpp"

namespace dullcast::commands {

/// The scenario that a page which runs the engine begins with.
struct PageScenario {
  std::string text, file;  // YAML, and its name for messages
  base::ShownUnits units = base::ShownUnits::field;
};

/// What commands that write such pages ask for: --output, which `output` tells of, --replace, --units and
/// --library.
boost::program_options::options_description engine_page_options(const std::string& output);

/// A page that runs the engine (tools/pages/parts/engine.js), but for its title. `name` is that of its body,
/// style and script without their endings ("lesson/lesson"); its data are the engine, the library of rocks,
/// bits and so on in `library` (a folder, "" for the program's own) and the scenario. Throws ScenarioErrors
/// when the library cannot be read.
page_maker::Page engine_page(const std::string& name, const std::string& library,
                             const PageScenario& scenario);

}  // namespace dullcast::commands
