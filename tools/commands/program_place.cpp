#include <cstdlib>
#include <filesystem>
#include <string>

#include "engine/base/program_version.hpp"
#include "models/common/wide.hpp"
#include "tools/commands/command.hpp"

namespace dullcast::commands {

std::string version_line() {
  return "dullcast " + base::program_version() + " (" + base::program_commit() + ")";
}

std::string version_text() {
  const int width = wide_loops_take();
  return version_line() + "\n" +
         (width == 1 ? std::string("numbers one by one") : std::to_string(width) + " numbers at once") +
         " on this machine; results are the same at any width\n";
}

std::string library_folder(const std::string& given, const std::string& scenario_file) {
  namespace fs = std::filesystem;
  if (!given.empty()) return given;
  if (const char* from_environment = std::getenv("DULLCAST_LIBRARY")) return from_environment;
  const fs::path beside = fs::path(scenario_file).parent_path();
  for (const fs::path& folder : {beside / "library", beside / ".." / "library"}) {
    if (fs::exists(folder / "rocks.yaml")) return folder.lexically_normal().string();
  }
  // Beside an installed program.
  std::error_code none;
  const fs::path program = fs::read_symlink("/proc/self/exe", none);
  const fs::path installed = (program.parent_path() / DULLCAST_INSTALLED_LIBRARY).lexically_normal();
  if (!none && fs::exists(installed / "rocks.yaml", none)) return installed.string();
  return DULLCAST_SOURCE_LIBRARY;
}

}  // namespace dullcast::commands
