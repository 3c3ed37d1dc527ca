#include <iterator>

#include "engine/input/library.hpp"
#include "fuzz/fed_reader.hpp"
#include "fuzz/feeds.hpp"

namespace dullcast::fuzz {

void take_library(const std::string& bytes) {
  static const input::LibraryTexts shipped =
      input::read_library_texts(std::string(DULLCAST_SOURCE_DIR) + "/scenarios/library");
  static const input::UnitParser units;
  std::string file = input::library_files[0];
  for (const char* name : input::library_files) {
    if (bytes.starts_with(std::string("# ") + name)) file = name;
  }
  // The others are left out, which is no mistake but for the models: reading them takes most of the time.
  input::LibraryTexts fed{"library", {}};
  for (const char* name : input::library_files) fed.files[name] = "";
  fed.files["models.yaml"] = shipped.files.at("models.yaml");
  fed.files[file] = bytes;
  was_read([&](std::vector<input::Warning>&) {
    const input::Library library = input::read_library(fed, units);
    scenario::Scenario with_models;
    with_models.numbers = library.models;
    for (const auto& [name, rock] : library.rocks) {
      with_models.column.layers.emplace_back();
      with_models.column.layers.back().rock = rock;
    }
    must_be_finite(with_models);
  });
}

}  // namespace dullcast::fuzz
