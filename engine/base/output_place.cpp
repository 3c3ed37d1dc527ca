#include "engine/base/output_place.hpp"

#include <cstddef>
#include <filesystem>
#include <system_error>

#include "engine/base/file_error.hpp"
#include "engine/base/whole_file.hpp"

namespace dullcast::base {
namespace {

namespace fs = std::filesystem;

/// Where a name leads when links are followed, whether or not something is there.
fs::path end_of(const fs::path& name) {
  std::error_code failed;
  fs::path target = fs::absolute(name);
  // weakly_canonical() stops at a link whose target is not there yet.
  for (int links = 0; links < 40 && fs::is_symlink(target, failed); ++links)
    target = target.parent_path() / fs::read_symlink(target, failed);
  const fs::path end = fs::weakly_canonical(target, failed);
  return failed ? target : end;
}

bool inside(const fs::path& file, const fs::path& folder) {
  std::error_code failed;
  if (!fs::is_directory(folder, failed)) return false;
  const fs::path within = end_of(file).lexically_relative(end_of(folder));
  return !within.empty() && *within.begin() != "..";
}

}  // namespace

bool same_place(const std::string& one, const std::string& other) {
  std::error_code failed;
  // By what is on the disk, so hard links count too.
  if (fs::exists(one, failed) && fs::exists(other, failed))
    return fs::equivalent(one, other, failed) && !failed;
  return end_of(one) == end_of(other);
}

void refuse_inputs(const std::string& file, const std::vector<std::string>& inputs) {
  for (const std::string& input : inputs) {
    if (input.empty()) continue;
    if (same_place(file, input))
      throw FileError(file, "this is what the command reads" + (file == input ? "" : " (" + input + ")") +
                                "; give the output another name");
    if (inside(file, input))
      throw FileError(file,
                      "this lies in " + input + ", which the command reads; give the output another place");
  }
}

void check_output_place(const OutputPlace& place, const std::vector<std::string>& inputs) {
  refuse_inputs(place.file, inputs);
  std::error_code failed;
  if (fs::is_regular_file(place.file, failed) && !place.replace)
    throw FileError(place.file,
                    "there is a file of this name already; --replace writes over it, -o gives another name");
  // Making a file there and taking it away again tells the rest.
  const FileAside trial(place.file);
}

void check_output_folder(const OutputPlace& folder, const std::vector<std::string>& names,
                         const std::vector<std::string>& inputs) {
  std::error_code failed;
  const fs::path path = folder.file;
  if (fs::exists(fs::symlink_status(path, failed))) {
    if (!fs::is_directory(path, failed)) throw FileError(folder.file, "this is not a folder");
    for (const std::string& name : names) {
      const std::string file = (path / name).string();
      refuse_inputs(file, inputs);
      if (fs::exists(fs::symlink_status(file, failed)) && !folder.replace)
        throw FileError(file, "there is a file of this name already; --replace writes over it");
    }
    if (!names.empty()) const FileAside trial((path / names.front()).string());
    return;
  }
  const fs::path above = path.has_filename() ? path.parent_path() : path.parent_path().parent_path();
  if (!above.empty() && !fs::is_directory(above, failed))
    throw FileError(folder.file, "there is no folder " + above.string() + " to make it in");
}

void write_text(const std::string& file, const std::string& text) {
  const auto* bytes = reinterpret_cast<const std::byte*>(text.data());
  write_whole_file(file, {bytes, bytes + text.size()});
}

}  // namespace dullcast::base
