#include "engine/input/any_quantity.hpp"

#include <array>

#include "engine/input/yaml_lines.hpp"

namespace dullcast::input {
namespace {

// Where a unit fits several (N/m and J/m2 do not occur; kelvins do), the first is taken.
constexpr std::array every_dimension{&base::dimension::number,
                                     &base::dimension::force,
                                     &base::dimension::length,
                                     &base::dimension::rotary_speed,
                                     &base::dimension::angle,
                                     &base::dimension::flow,
                                     &base::dimension::speed,
                                     &base::dimension::time,
                                     &base::dimension::temperature,
                                     &base::dimension::pressure,
                                     &base::dimension::money,
                                     &base::dimension::money_per_time,
                                     &base::dimension::money_per_length,
                                     &base::dimension::density,
                                     &base::dimension::viscosity,
                                     &base::dimension::weight_per_length,
                                     &base::dimension::power,
                                     &base::dimension::fuel_energy,
                                     &base::dimension::conductivity,
                                     &base::dimension::heat_capacity,
                                     &base::dimension::conductance,
                                     &base::dimension::abrasion,
                                     &base::dimension::per_length,
                                     &base::dimension::impedance,
                                     &base::dimension::stress_per_kelvin,
                                     &base::dimension::temperature_gradient};

}  // namespace

std::optional<SomeValue> value_of_any_kind(const UnitParser& units, const std::string& text,
                                           const std::string& currency) {
  // A word is no number in an unknown unit.
  if (text.find_first_of("0123456789") == text.npos) return std::nullopt;
  for (const base::Dimension* dimension : every_dimension) {
    try {
      return SomeValue{dimension, units.parse(text, *dimension, currency)};
    } catch (const UnitError&) {
      // another dimension may read it
    }
  }
  return std::nullopt;
}

std::string text_of_value(double value, const base::Dimension& dimension, const std::string& currency) {
  if (dimension.rule == base::UnitRule::money) return money_text(value, currency, dimension.label);
  return with_unit(value, dimension);
}

std::string units_in_file(const base::Dimension& dimension) {
  if (dimension.rule == base::UnitRule::money) {
    return *dimension.si == '\0' ? "1" : std::string(dimension.si) + "-1";
  }
  return dimension.si;
}

}  // namespace dullcast::input
