#include "engine/base/text_number.hpp"

namespace dullcast::base {

std::uint64_t text_number(std::string_view text) {
  std::uint64_t number = 0xcbf29ce484222325U;
  for (const char letter : text) number = (number ^ static_cast<unsigned char>(letter)) * 0x100000001b3U;
  return number;
}

}  // namespace dullcast::base
