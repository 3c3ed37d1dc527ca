#include <array>
#include <cmath>

#include "engine/base/plain_text.hpp"
#include "engine/input/any_quantity.hpp"
#include "fuzz/fed_reader.hpp"
#include "fuzz/feeds.hpp"

namespace dullcast::fuzz {
namespace {

namespace dimension = base::dimension;
constexpr std::array fed_dimensions{
    &dimension::number,        &dimension::length,         &dimension::angle,
    &dimension::force,         &dimension::pressure,       &dimension::weight_per_length,
    &dimension::rotary_speed,  &dimension::flow,           &dimension::speed,
    &dimension::time,          &dimension::density,        &dimension::viscosity,
    &dimension::temperature,   &dimension::conductivity,   &dimension::temperature_difference,
    &dimension::heat_capacity, &dimension::abrasion,       &dimension::temperature_gradient,
    &dimension::per_length,    &dimension::impedance,      &dimension::stress_per_kelvin,
    &dimension::per_kelvin,    &dimension::power,          &dimension::fuel_energy,
    &dimension::money,         &dimension::money_per_time, &dimension::money_per_length};

/// A value written as the program writes it is read as the same.
void must_read_back(double value, const base::Dimension& dimension) {
  std::string text = input::text_of_value(value, dimension, "$");
  if (text.starts_with('"')) text = text.substr(1, text.size() - 2);
  if (fed_reader().units().parse(text, dimension) != value)
    throw Fault("reads back as another value: " + text);
}

}  // namespace

void take_units(const std::string& bytes) {
  if (bytes.empty()) return;
  const base::Dimension& wanted =
      *fed_dimensions[static_cast<unsigned char>(bytes.front()) % fed_dimensions.size()];
  const std::string text = bytes.substr(1);
  // Readers see scalars of YAML, which has been looked through for these.
  if (base::first_not_utf8(text) != std::string::npos || text.find('\0') != std::string::npos) return;
  try {
    const double value = fed_reader().units().parse(text, wanted);
    if (!std::isfinite(value)) throw Fault("not finite: " + text);
    must_read_back(value, wanted);
  } catch (const input::UnitError& error) {
    if (std::string(error.what()).empty()) throw Fault("refused without a word");
  }
  if (text.size() > 60) return;  // every dimension has its turn below
  const auto some = input::value_of_any_kind(fed_reader().units(), text, "$");
  if (some && !std::isfinite(some->value)) throw Fault("not finite as some value: " + text);
}

}  // namespace dullcast::fuzz
