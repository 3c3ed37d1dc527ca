#include "engine/input/text_kind.hpp"

#include <algorithm>
#include <initializer_list>

namespace dullcast::input {

TextKind kind_of_text(const YamlValue& tree) {
  const auto has = [&](std::initializer_list<const char*> keys) {
    return std::any_of(keys.begin(), keys.end(), [&](const char* key) { return tree.find(key) != nullptr; });
  };
  if (has({"column", "bit"})) return TextKind::scenario;
  if (has({"shop"})) return TextKind::shop_plan;
  if (has({"scenario", "factors", "draws", "design"})) return TextKind::sweep_plan;
  // Such a file names the shelf that it is of, too.
  if (has({"inspected_bits"})) return TextKind::learned;
  return has({"shelf"}) ? TextKind::shelf : TextKind::scenario;
}

}  // namespace dullcast::input
