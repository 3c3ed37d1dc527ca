#include "tools/commands/outputs.hpp"

#include <filesystem>
#include <set>
#include <sstream>

#include "engine/base/file_error.hpp"
#include "engine/base/output_place.hpp"
#include "tools/commands/command.hpp"

namespace dullcast::commands {

void add_replace_option(boost::program_options::options_description& shown) {
  shown.add_options()("replace", "write over files that are there already");
}

Outputs::Outputs(const boost::program_options::variables_map& values)
    : replace_(values.count("replace") > 0),
      csv_(values.count("csv") > 0 ? values["csv"].as<std::string>() : std::string()) {}

void Outputs::reads(const std::string& path) {
  read_.push_back(path);
}

void Outputs::reads(const scenario::Scenario& scenario) {
  reads(scenario.bit.continues);
  if (scenario.calibrate_from) reads(scenario.calibrate_from->scenario_file);
  if (scenario.learned) reads(scenario.learned->file);
}

void Outputs::reads(const Asked& asked, const scenario::Scenario& scenario) {
  reads(asked.file);
  reads(library_folder(asked.library, asked.file));
  reads(scenario);
}

void Outputs::reads(const std::string& shelf_file, const std::string& library,
                    const std::vector<scenario::ShelvedBit>& shelf) {
  reads(shelf_file);
  reads(library_folder(library, shelf_file));
  std::set<std::string> scenarios;
  for (const scenario::ShelvedBit& record : shelf) scenarios.insert(record.found.scenario_file);
  for (const std::string& scenario : scenarios) reads(scenario);
}

void Outputs::will_write(const std::string& file) {
  for (const std::string& other : written_) {
    if (base::same_place(file, other)) throw base::FileError(file, "two outputs cannot have one place");
  }
  base::check_output_place({file, replace_}, read_);
  written_.push_back(file);
}

void Outputs::will_write_csv() {
  if (!csv_.empty()) will_write(csv_);
}

void Outputs::write_csv(const std::function<void(std::ostream&)>& print) const {
  if (csv_.empty()) return;
  std::ostringstream text;
  print(text);
  base::write_text(csv_, text.str());
}

void Outputs::will_fill(const std::string& folder, const std::vector<std::string>& names) {
  base::check_output_folder({folder, replace_}, names, read_);
}

std::string usual_output(const std::string& made_from, const std::string& ending) {
  namespace fs = std::filesystem;
  const std::string name = fs::path(made_from).stem().string() + ending;
  return fs::is_directory("results") ? (fs::path("results") / name).string() : name;
}

}  // namespace dullcast::commands
