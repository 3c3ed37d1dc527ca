#pragma once

#include <string_view>
#include <vector>

namespace dullcast::page_maker {

/// Text of a file of tools/pages that the program carries in itself, by its path there: "parts/style.css".
/// tools/page_maker/carried_files.cmake lists them. Throws std::out_of_range, which names it, for any other.
std::string_view page_file(std::string_view path);

/// The paths of all of them, in the order of the list.
std::vector<std::string_view> page_file_paths();

}  // namespace dullcast::page_maker
