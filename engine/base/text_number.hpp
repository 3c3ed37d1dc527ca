#pragma once

#include <cstdint>
#include <string_view>

namespace dullcast::base {

/// A number of 64 bits for a text, the same on every machine: FNV-1a (Fowler, Noll & Vo; from memory). To
/// tell texts apart, not to keep them from anybody.
std::uint64_t text_number(std::string_view text);

}  // namespace dullcast::base
