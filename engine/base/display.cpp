#include "engine/base/display.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <iterator>

namespace dullcast::base {

std::string show_number(double value, int digits) {
  if (std::isnan(value)) return "not known";
  if (std::isinf(value)) return "without limit";
  if (value == 0.0) return "0";
  // Round to the figures first: 999.6 to three of them is 1000, with no decimals.
  char buffer[360];
  std::snprintf(buffer, sizeof buffer, "%.*e", std::max(digits, 1) - 1, value);
  const double rounded = std::strtod(buffer, nullptr);
  const int decimals =
      std::clamp(digits - 1 - static_cast<int>(std::floor(std::log10(std::abs(rounded)))), 0, 17);
  std::snprintf(buffer, sizeof buffer, "%.*f", decimals, decimals > 0 ? rounded : value);
  std::string text = buffer;
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

namespace {
std::string with(const std::string& number, std::string_view unit) {
  return number + " " + std::string(unit);
}

std::string field_and_si(const std::string& field, const std::string& si, ShownUnits units) {
  if (units == ShownUnits::field) return field;
  if (units == ShownUnits::si) return si;
  return field == si ? si : field + " (" + si + ")";
}
}  // namespace

std::string show(double si, const Shown& kind, ShownUnits units, int digits) {
  return field_and_si(with(show_number(si * kind.field_factor + kind.field_offset, digits), kind.field_unit),
                      with(show_number(si * kind.si_factor + kind.si_offset, digits), kind.si_unit), units);
}

std::string show_bytes(double bytes) {
  const char* units[] = {"B", "kB", "MB", "GB", "TB", "PB"};
  std::size_t k = 0;
  while (bytes >= 1000.0 && k + 1 < std::size(units)) {
    bytes /= 1000.0;
    ++k;
  }
  return with(show_number(std::round(bytes * 10.0) / 10.0, 4), units[k]);
}

std::string depth_text(double depth) {
  return with(show_number(depth, 6), "m") + " (" + with(show_number(depth / shown::foot, 5), "ft)");
}

std::string show_money(double amount, std::string_view currency, int digits) {
  return with(show_number(amount, digits), currency);
}

std::string show_money_per_length(double per_metre, std::string_view currency, ShownUnits units, int digits) {
  return field_and_si(show_money(per_metre * shown::foot, currency, digits) + "/ft",
                      show_money(per_metre, currency, digits) + "/m", units);
}

}  // namespace dullcast::base
