#include "engine/base/words.hpp"
#include "engine/input/bit_reader.hpp"
#include "models/common/constants.hpp"

namespace dullcast::input {

namespace {

constexpr base::Range angle_range{-pi, pi, true, "from -180 to 180 deg"};
constexpr base::Range arc_range{-2.0, 2.0, true, "from -2 to 2 m along the gauge"};

/// An angle between a wing's ends, or an arc along the gauge: told apart by the unit.
std::optional<geometry::WingTwist> read_one(const YamlValue& value, const std::string& path,
                                            Reading& reading) {
  bool is_length = true;
  try {
    if (value.is_scalar()) reading.units.parse(value.text, base::dimension::length);
  } catch (const UnitError&) {
    is_length = false;
  }
  geometry::WingTwist twist;
  const auto& wanted = is_length ? base::dimension::length : base::dimension::angle;
  const auto number = read_number(value, path, wanted, is_length ? arc_range : angle_range, reading);
  if (!number) return std::nullopt;
  (is_length ? twist.arc : twist.angle) = *number;
  return twist;
}

}  // namespace

std::vector<geometry::WingTwist> read_wing_twist(MapReader& blades, std::size_t wings) {
  const YamlValue* value = blades.find("wing_twist");
  if (!value) return {};
  if (blades.has("wing_sweep")) blades.error("wing_twist", "is given beside wing_sweep:; keep one of them");
  const std::string path = blades.path_of("wing_twist");
  std::vector<geometry::WingTwist> twists;
  if (!value->is_list()) {
    if (const auto same = read_one(*value, path, blades.reading())) twists.assign(wings, *same);
    return twists;
  }
  if (value->items.size() != wings) {
    blades.error("wing_twist", "has " + std::to_string(value->items.size()) + " values for " +
                                   std::to_string(wings) + " blades; write one for all, or one a blade");
    return {};
  }
  for (std::size_t k = 0; k < wings; ++k) {
    const auto one = read_one(value->items[k], path + "." + std::to_string(k), blades.reading());
    twists.push_back(one.value_or(geometry::WingTwist{}));
  }
  return twists;
}

}  // namespace dullcast::input
