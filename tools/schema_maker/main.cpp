#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>

#include "tools/schema_maker/make_schemas.hpp"

// Writes the schemas beside the scenarios, or into another folder.
int main(int count, char** words) {
  namespace fs = std::filesystem;
  const fs::path scenarios = fs::path(DULLCAST_SOURCE_DIR) / "scenarios";
  const fs::path folder = count == 2 ? fs::path(words[1]) : scenarios / "schemas";
  if (count > 2 || folder.string().starts_with("-")) {
    std::cout << "make-schemas [FOLDER]: writes JSON schemas of the files that dullcast reads, from their "
                 "readers and\n"
                 "scenarios/README.md, into scenarios/schemas or FOLDER.\n";
    return count > 2 ? 2 : 0;
  }
  try {
    fs::create_directories(folder);
    for (const auto& [name, text] : dullcast::schema_maker::make_schemas(scenarios.string())) {
      std::ofstream file(folder / name, std::ios::binary);
      file << text << std::flush;
      if (!file) throw std::runtime_error((folder / name).string() + " cannot be written");
    }
    return 0;
  } catch (const std::exception& error) {
    std::cerr << "make-schemas: " << error.what() << "\n";
    return 4;
  }
}
