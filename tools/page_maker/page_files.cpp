#include "tools/page_maker/page_files.hpp"

#include <stdexcept>
#include <string>

#include "tools/page_maker/carried_files.hpp"

namespace dullcast::page_maker {

std::string_view page_file(std::string_view path) {
  for (std::size_t k = 0; k < carried_count; ++k) {
    const CarriedFile& file = carried_files[k];
    if (path == file.path) return {file.begin, static_cast<std::size_t>(file.end - file.begin)};
  }
  throw std::out_of_range("page_file: the program carries no file " + std::string(path));
}

std::vector<std::string_view> page_file_paths() {
  std::vector<std::string_view> paths;
  for (std::size_t k = 0; k < carried_count; ++k) paths.emplace_back(carried_files[k].path);
  return paths;
}

}  // namespace dullcast::page_maker
