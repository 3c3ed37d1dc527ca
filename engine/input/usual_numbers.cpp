#include "engine/input/usual_numbers.hpp"

#include <algorithm>

#include "engine/base/words.hpp"
#include "engine/scenario/number_fields.hpp"

namespace dullcast::input {
namespace {

/// The unit in which numbers of rocks are told.
const char* told_in(const base::Dimension& dimension) {
  if (&dimension == &base::dimension::pressure) return "MPa";
  if (&dimension == &base::dimension::density) return "kg/m3";
  if (&dimension == &base::dimension::angle) return "deg";
  if (&dimension == &base::dimension::length) return "mm";
  return dimension.label;
}

std::string range_words(const base::Dimension& dimension, const UsualNumber& usual, const UnitParser& units) {
  const std::string unit = told_in(dimension);
  const double one = unit.empty() ? 1.0 : units.parse("1 " + unit, dimension);
  return base::plain_number(usual.least / one) + " to " + base::plain_number(usual.most / one) +
         (unit.empty() ? "" : " " + unit);
}

}  // namespace

std::vector<UsualNumber> usual_numbers(const std::vector<scenario::RockRecord>& rocks) {
  std::vector<UsualNumber> result;
  if (rocks.empty()) return result;
  for (const auto& field : scenario::number_fields(rocks.front())) {
    UsualNumber usual{(rocks.front().*field.member).low, (rocks.front().*field.member).high};
    for (const scenario::RockRecord& rock : rocks) {
      usual.least = std::min(usual.least, (rock.*field.member).low);
      usual.most = std::max(usual.most, (rock.*field.member).high);
    }
    result.push_back(usual);
  }
  return result;
}

std::string usual_words(std::string_view key, const std::vector<UsualNumber>& usual,
                        const UnitParser& units) {
  const auto fields = scenario::number_fields(scenario::RockRecord{});
  for (std::size_t i = 0; i < usual.size(); ++i) {
    if (fields[i].key == key)
      return "; rocks of the library have " + range_words(*fields[i].wanted, usual[i], units);
  }
  return {};
}

void warn_unusual(MapReader& map, const scenario::RockRecord& rock, const std::vector<UsualNumber>& usual) {
  constexpr double far = 3.0;
  const auto fields = scenario::number_fields(rock);
  for (std::size_t i = 0; i < usual.size(); ++i) {
    const double value = (rock.*fields[i].member).central;
    // Nothing of something (no stones, no stickiness) is as usual as some.
    const bool outside = value > far * usual[i].most || (value > 0.0 && value < usual[i].least / far);
    if (!outside || !(usual[i].most > 0.0) || !map.has(fields[i].key)) continue;
    map.warn(fields[i].key, "is far from what is usual" +
                                usual_words(fields[i].key, usual, map.reading().units) + ": check its unit");
  }
}

}  // namespace dullcast::input
