#pragma once

#include <array>
#include <string_view>

namespace dullcast::input {

/// The key under which records of a kind stand, and the word with which for_each_number begins the name of a
/// number of theirs: "rocks" and "rock", of "rock sandstone: cerchar_abrasivity".
struct RecordSection {
  std::string_view key, word;
};
inline constexpr std::array<RecordSection, 5> record_sections{
    {{"rocks", "rock"}, {"grades", "grade"}, {"lots", "lot"}, {"bodies", "body"}, {"fluids", "fluid"}}};

}  // namespace dullcast::input
