#include "tools/commands/usual_units.hpp"

#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "tools/commands/command.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

base::ShownUnits read_units(const std::string& word, const std::string& from) {
  if (word == "field") return base::ShownUnits::field;
  if (word == "si") return base::ShownUnits::si;
  if (word == "both") return base::ShownUnits::both;
  throw WrongWords(from + " is field, si or both, not \"" + word + "\"");
}

/// Empty where the variable is not set or holds nothing.
std::string environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string() : std::string(value);
}

}  // namespace

void add_units_option(po::options_description& shown) {
  shown.add_options()(
      "units", po::value<std::string>()->value_name("WHICH"),
      "field, si or both; without it what DULLCAST_UNITS or ~/.config/dullcast/units says, else field");
}

std::string usual_units(std::string& from) {
  from = "DULLCAST_UNITS";
  if (std::string word = environment("DULLCAST_UNITS"); !word.empty()) return word;
  const std::string settings = environment("XDG_CONFIG_HOME"), home = environment("HOME");
  if (!settings.empty() || !home.empty()) {
    namespace fs = std::filesystem;
    const fs::path file =
        (settings.empty() ? fs::path(home) / ".config" : fs::path(settings)) / "dullcast" / "units";
    std::error_code none;
    std::ifstream text(fs::is_regular_file(file, none) ? file : fs::path());
    if (std::string word; text >> word) {
      from = file.string();
      return word;
    }
  }
  from.clear();
  return "field";
}

base::ShownUnits units_of(const po::variables_map& values) {
  if (values.count("units")) return read_units(values["units"].as<std::string>(), "--units");
  std::string from;
  const std::string word = usual_units(from);
  return read_units(word, from);
}

}  // namespace dullcast::commands
