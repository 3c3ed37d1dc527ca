#include "engine/sweep/any_dimension.hpp"

#include <array>

#include "engine/scenario/yaml_lines.hpp"

namespace dullcast {
namespace {

// Where a unit fits several (N/m and J/m2 do not occur; kelvins do), the first is taken.
constexpr std::array every_dimension{&dimension::number,
                                     &dimension::force,
                                     &dimension::length,
                                     &dimension::rotary_speed,
                                     &dimension::angle,
                                     &dimension::flow,
                                     &dimension::speed,
                                     &dimension::time,
                                     &dimension::temperature,
                                     &dimension::pressure,
                                     &dimension::money,
                                     &dimension::money_per_time,
                                     &dimension::money_per_length,
                                     &dimension::density,
                                     &dimension::viscosity,
                                     &dimension::weight_per_length,
                                     &dimension::power,
                                     &dimension::fuel_energy,
                                     &dimension::conductivity,
                                     &dimension::heat_capacity,
                                     &dimension::conductance,
                                     &dimension::abrasion,
                                     &dimension::per_length,
                                     &dimension::impedance,
                                     &dimension::stress_per_kelvin,
                                     &dimension::temperature_gradient};

}  // namespace

std::optional<SomeValue> value_of_any_kind(const UnitParser& units, const std::string& text,
                                           const std::string& currency) {
  // A word is no number in an unknown unit.
  if (text.find_first_of("0123456789") == text.npos) return std::nullopt;
  for (const Dimension* dimension : every_dimension) {
    try {
      return SomeValue{dimension, units.parse(text, *dimension, currency)};
    } catch (const UnitError&) {
      // another dimension may read it
    }
  }
  return std::nullopt;
}

std::string text_of_value(double value, const Dimension& dimension, const std::string& currency) {
  if (dimension.rule == UnitRule::money) return money_text(value, currency, dimension.label);
  return with_unit(value, dimension);
}

std::string units_in_file(const Dimension& dimension) {
  if (dimension.rule == UnitRule::money) {
    return *dimension.si == '\0' ? "1" : std::string(dimension.si) + "-1";
  }
  return dimension.si;
}

}  // namespace dullcast
