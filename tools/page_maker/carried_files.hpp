#pragma once

#include <cstddef>

/// What the generated source of tools/page_maker/carried_files.cmake defines.
namespace dullcast::page_maker {

struct CarriedFile {
  const char* path;  // below tools/pages
  const char *begin, *end;
};
extern const CarriedFile carried_files[];
extern const std::size_t carried_count;

}  // namespace dullcast::page_maker
