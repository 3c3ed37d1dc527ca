#include "tools/commands/ready_shelf.hpp"

#include "engine/input/shelf_reader.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/ready_scenario.hpp"

namespace dullcast::commands {

std::vector<scenario::ShelvedBit> ready_shelf(const std::string& file, const std::string& library) {
  std::vector<input::Warning> warnings;
  const input::ScenarioReader reader(library_folder(library, file));
  auto shelf = input::read_shelf(file, reader, warnings);
  tell_unwise(warnings);
  return shelf;
}

}  // namespace dullcast::commands
