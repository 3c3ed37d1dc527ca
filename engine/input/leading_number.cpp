#include "engine/input/leading_number.hpp"

#include <cmath>
#include <optional>

#include "engine/base/number_text.hpp"
#include "engine/input/letters.hpp"
#include "engine/input/located_yaml.hpp"
#include "engine/input/units.hpp"

namespace dullcast::input {
namespace {

/// The text without blanks at its ends; spaces that do not break lines, and narrow ones, are blanks too.
std::string with_plain_blanks(std::string_view text) {
  constexpr std::string_view wide[] = {"\u00a0", "\u2007", "\u2008", "\u2009", "\u200a", "\u202f"};
  std::string result(text);
  for (const std::string_view space : wide) {
    for (auto at = result.find(space); at != result.npos; at = result.find(space, at))
      result.replace(at, space.size(), " ");
  }
  while (!result.empty() && blank(result.back())) result.pop_back();
  std::size_t first = 0;
  while (first < result.size() && blank(result[first])) ++first;
  return result.substr(first);
}

std::size_t after_digits(std::string_view text, std::size_t at) {
  while (at < text.size() && digit(text[at])) ++at;
  return at;
}

/// A fraction at the start of a text: "7/8".
struct Fraction {
  double over = 0.0, under = 0.0;
  std::size_t length = 0;
};
std::optional<Fraction> leading_fraction(std::string_view text) {
  constexpr std::size_t most_digits = 4;  // 63/64 is the finest that the trade writes
  const std::size_t slash = after_digits(text, 0);
  if (slash == 0 || slash > most_digits || slash >= text.size() || text[slash] != '/') return std::nullopt;
  const std::size_t end = after_digits(text, slash + 1);
  if (end == slash + 1 || end > slash + 1 + most_digits) return std::nullopt;
  Fraction result;
  base::read_number(text.data(), text.data() + slash, result.over);
  base::read_number(text.data() + slash + 1, text.data() + end, result.under);
  result.length = end;
  return result;
}

/// Whether a number within a unit multiplies it: neither an exponent ("m2", "s-1", "m^0.5") nor what it is
/// per
/// ("/100 ft", "/(100 m)", "1/m").
bool multiplies_within(std::string_view unit) {
  for (std::size_t i = 0; i < unit.size(); ++i) {
    if (!digit(unit[i])) continue;
    std::size_t end = i;
    while (end < unit.size() &&
           (digit(unit[end]) || (unit[end] == '.' && end + 1 < unit.size() && digit(unit[end + 1]))))
      ++end;
    std::size_t next = end;
    while (next < unit.size() && blank(unit[next])) ++next;
    if (next > end && next < unit.size() && digit(unit[next])) return true;
    const bool signed_one = i > 0 && (unit[i - 1] == '-' || unit[i - 1] == '+');
    const std::size_t from = signed_one ? i - 1 : i;
    const bool exponent =
        from > 0 && (letter(unit[from - 1]) || unit[from - 1] == ')' || unit[from - 1] == '^');
    std::size_t before = from;
    while (before > 0 && blank(unit[before - 1])) --before;
    const bool per = before > 0 && (unit[before - 1] == '/' || unit[before - 1] == '(');
    const bool one_per =
        before == 0 && unit.substr(i, end - i) == "1" && next < unit.size() && unit[next] == '/';
    if (!exponent && !per && !one_per) return true;
    i = end - 1;
  }
  return false;
}

/// Takes a fraction off `rest`, which follows what was read as `result.number`; false when there is none.
bool take_fraction(std::string_view number, std::string_view& rest, NumberAndUnit& result) {
  const bool whole = after_digits(number, 0) == number.size() && !number.empty();
  const bool negative = number.starts_with('-') && after_digits(number, 1) == number.size();
  if (!whole && !negative) return false;
  if (rest.starts_with('/')) {
    const std::string both = std::string(number.substr(negative ? 1 : 0)) + std::string(rest);
    const auto fraction = leading_fraction(both);
    if (!fraction) return false;
    result.number = (negative ? -1.0 : 1.0) * fraction->over / fraction->under;
    rest.remove_prefix(fraction->length - (number.size() - (negative ? 1 : 0)));
    return true;
  }
  std::size_t at = 0;
  if (rest.starts_with('-')) {
    at = 1;
  } else {
    while (at < rest.size() && blank(rest[at])) ++at;
  }
  const auto fraction = at > 0 ? leading_fraction(rest.substr(at)) : std::nullopt;
  if (!fraction || !(fraction->over > 0.0 && fraction->over < fraction->under)) return false;
  result.number += (negative ? -1.0 : 1.0) * fraction->over / fraction->under;
  rest.remove_prefix(at + fraction->length);
  return true;
}

}  // namespace

NumberAndUnit split_number(std::string_view text, const base::Dimension& wanted) {
  const std::string whole = with_plain_blanks(text);
  const auto wrong = [&](const std::string& what) { return UnitError(what + "; write " + wanted.examples); };
  if (whole.empty()) throw UnitError(std::string("is empty; write ") + wanted.examples);
  std::string_view rest = whole;
  if (rest.front() == '+') rest.remove_prefix(1);
  NumberAndUnit result;
  const auto [end, failure] = base::read_number(rest.data(), rest.data() + rest.size(), result.number);
  if (failure == std::errc::result_out_of_range) {
    throw wrong(quoted_text(whole) + " is too large or too small a number");
  }
  const bool starts_like_number =
      failure == std::errc() && (digit(rest.front()) || rest.front() == '-' || rest.front() == '.');
  if (!starts_like_number || !std::isfinite(result.number)) {
    throw wrong(quoted_text(whole) + " does not start with a number, and " + wanted.name + " is wanted");
  }
  const std::string_view number = rest.substr(0, static_cast<std::size_t>(end - rest.data()));
  rest.remove_prefix(number.size());
  const bool fraction = take_fraction(number, rest, result);
  if (!std::isfinite(result.number)) throw wrong(quoted_text(whole) + " divides by 0");
  std::string_view unit = rest;
  while (!unit.empty() && blank(unit.front())) unit.remove_prefix(1);
  if (!unit.empty() && unit.front() == ',') {
    throw wrong(quoted_text(whole) + " has a comma in its number: leave it out, with a point for decimals");
  }
  if (fraction && unit.empty()) throw wrong(quoted_text(whole) + " is a fraction without a unit");
  const bool goes_on = !unit.empty() && std::string_view(".+-'").find(unit.front()) != std::string_view::npos;
  if (goes_on || multiplies_within(unit)) {
    throw wrong(quoted_text(whole) +
                " has more than one number in it: write a number without spaces or commas (6750, not 6 750), "
                "a fraction as 7-7/8");
  }
  result.unit = std::string(unit);
  return result;
}

}  // namespace dullcast::input
