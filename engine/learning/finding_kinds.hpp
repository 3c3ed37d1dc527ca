#pragma once

#include <array>
#include <cstddef>

#include "engine/scenario/inspected_bit.hpp"

namespace dullcast::learning {

/// The kinds of finding that a record may hold.
enum class FindingKind : std::size_t { heights, grades, chips, lost, bare, heat_checks };
inline constexpr std::size_t findings = 6;
inline constexpr std::array every_finding{FindingKind::heights, FindingKind::grades,
                                          FindingKind::chips,   FindingKind::lost,
                                          FindingKind::bare,    FindingKind::heat_checks};
/// "worn heights", "dull grades", "chipped edges", "lost cutters", "tables off their carbide", "heat checks".
const char* finding_words(FindingKind finding);

/// Whether the record says anything of that kind, found or seen not to be there.
bool was_looked_at(const scenario::InspectedBit& found, FindingKind finding);

}  // namespace dullcast::learning
