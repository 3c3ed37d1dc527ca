#include "engine/base/number_text.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <string_view>

namespace dullcast::base {
namespace {

bool digit(char c) {
  return c >= '0' && c <= '9';
}

bool starts_with_word(const char* first, const char* last, std::string_view word) {
  for (const char letter : word) {
    if (first == last || (*first | 0x20) != letter) return false;
    ++first;
  }
  return true;
}

const char* after_digits(const char* first, const char* last) {
  while (first != last && digit(*first)) ++first;
  return first;
}

/// Where the number that [first, last) starts with ends; `first` where there is none.
const char* end_of_number(const char* first, const char* last) {
  const char* at = first;
  if (at != last && *at == '-') ++at;
  for (const std::string_view word : {"infinity", "inf", "nan"}) {
    if (starts_with_word(at, last, word)) return at + word.size();
  }
  const char* whole = after_digits(at, last);
  auto digits = whole - at;
  at = whole;
  if (at != last && *at == '.') {
    const char* fraction = after_digits(at + 1, last);
    digits += fraction - (at + 1);
    at = fraction;
  }
  if (digits == 0) return first;
  if (at != last && (*at | 0x20) == 'e') {
    const char* power = at + 1;
    if (power != last && (*power == '-' || *power == '+')) ++power;
    const char* end = after_digits(power, last);
    if (end != power) at = end;
  }
  return at;
}

}  // namespace

std::from_chars_result read_number_by_c(const char* first, const char* last, double& value) {
  const char* end = end_of_number(first, last);
  if (end == first) return {first, std::errc::invalid_argument};
  const std::string text(first, end);
  const double read = std::strtod(text.c_str(), nullptr);
  const bool named = text.find_first_of("iInN") != std::string::npos;
  const bool some_digit = text.find_first_of("123456789") < text.find_first_of("eE");
  if (!named && (std::isinf(read) || (read == 0.0 && some_digit))) {
    return {end, std::errc::result_out_of_range};
  }
  value = read;
  return {end, std::errc()};
}

std::string exact_number_by_c(double value) {
  if (!std::isfinite(value)) return std::isnan(value) ? "nan" : value < 0.0 ? "-inf" : "inf";
  // The fewest digits that read back as the value, as d.dddde+xx.
  std::array<char, 32> buffer{};
  for (int digits = 0; digits <= 16; ++digits) {
    std::snprintf(buffer.data(), buffer.size(), "%.*e", digits, value);
    if (std::strtod(buffer.data(), nullptr) == value) break;
  }
  const std::string scientific = buffer.data();
  const std::size_t e = scientific.find('e');
  const int power = std::atoi(scientific.c_str() + e + 1);
  const int behind_point = std::max(
      0,
      static_cast<int>(scientific.find('.') == std::string::npos ? 0 : e - scientific.find('.') - 1) - power);
  // The same digits without an exponent, where that is no longer.
  std::array<char, 400> plain{};
  std::snprintf(plain.data(), plain.size(), "%.*f", behind_point, value);
  const std::string fixed = plain.data();
  return fixed.size() <= scientific.size() ? fixed : scientific;
}

std::from_chars_result read_number(const char* first, const char* last, double& value) {
#ifdef __cpp_lib_to_chars
  return std::from_chars(first, last, value);
#else
  return read_number_by_c(first, last, value);
#endif
}

std::string exact_number(double value) {
#ifdef __cpp_lib_to_chars
  std::array<char, 32> buffer{};
  const auto [end, failure] = std::to_chars(buffer.data(), buffer.data() + buffer.size(), value);
  return failure == std::errc() ? std::string(buffer.data(), end) : std::string("0");
#else
  return exact_number_by_c(value);
#endif
}

}  // namespace dullcast::base
