#include "tools/dullcast/window_words.hpp"

#include <limits>

#include "engine/scenario/problems.hpp"
#include "engine/scenario/unit_words.hpp"
#include "engine/scenario/words.hpp"
#include "tools/dullcast/command.hpp"

namespace dullcast {
namespace {

/// A limit that can be set by its name, what it is a quantity of, and what stands for none.
struct Settable {
  const char* name;
  double WindowLimits::*value;
  const Dimension* wanted;
  double none;
};

constexpr double infinite = std::numeric_limits<double>::infinity();

constexpr Settable settable[] = {
    {"heat", &WindowLimits::hottest_flat, &dimension::temperature, infinite},
    {"wear", &WindowLimits::metres_to_allowance, &dimension::depth, 0.0},
    {"chips", &WindowLimits::chips, &dimension::number, infinite},
    {"seats", &WindowLimits::load_share, &dimension::number, infinite},
    {"progress", &WindowLimits::least_progress, &dimension::speed, 0.0},
    {"packing", &WindowLimits::packing, &dimension::number, infinite},
    {"film", &WindowLimits::film, &dimension::time, infinite},
    {"weight", &WindowLimits::weight, &dimension::force, infinite},
    {"pressure", &WindowLimits::pressure, &dimension::pressure, infinite},
};

std::string trimmed(const std::string& text) {
  const auto first = text.find_first_not_of(' ');
  if (first == std::string::npos) return "";
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

bool has_unit(const std::string& text) {
  return text.find_first_not_of("0123456789.+-eE ") != std::string::npos;
}

/// The end of a range may lend its unit to a beginning without one.
std::string with_unit_of(const std::string& text, const std::string& other, const Dimension& wanted) {
  if (has_unit(text)) return text;
  try {
    return text + " " + split_number(other, wanted).unit;
  } catch (const UnitError&) {
    return text;  // the end is refused by itself, in better words
  }
}

int read_count(const std::string& option, const std::string& text) {
  const std::string digits = trimmed(text);
  constexpr int most = 200;
  int count = 0;
  for (const char digit : digits) {
    if (digit < '0' || digit > '9' || count > most) {
      count = 0;
      break;
    }
    count = 10 * count + (digit - '0');
  }
  if (count < 2 || count > most)
    throw WrongWords(option +
                     ": the number of values, after \"in\", is a whole number from 2 to 200, not \"" +
                     digits + "\"");
  return count;
}

}  // namespace

double read_value(const std::string& option, const std::string& text, const Dimension& wanted,
                  const UnitParser& units) {
  double value = 0.0;
  try {
    value = units.parse(trimmed(text), wanted);
  } catch (const UnitError& error) {
    throw WrongWords(option + ": " + error.what());
  }
  if (!(value >= 0.0)) throw WrongWords(option + ": \"" + trimmed(text) + "\" is below 0");
  return value;
}

std::vector<double> read_range(const std::string& option, const std::string& text, const Dimension& wanted,
                               const UnitParser& units) {
  const auto to = text.find(" to ");
  if (to == std::string::npos) {
    const double value = read_value(option, text, wanted, units);
    if (!(value > 0.0)) throw WrongWords(option + ": a value is above 0");
    return {value};
  }
  const auto in = text.rfind(" in ");
  if (in == std::string::npos || in < to)
    throw WrongWords(option + ": say how many values, as in \"" + text + " in 7\"");
  const std::string last_words = text.substr(to + 4, in - to - 4);
  const int count = read_count(option, text.substr(in + 4));
  const double last = read_value(option, last_words, wanted, units);
  const double first =
      read_value(option, with_unit_of(text.substr(0, to), last_words, wanted), wanted, units);
  if (!(first > 0.0) || !(last > first))
    throw WrongWords(option + ": values rise from above 0, so the second of \"" + text + "\" is the greater");
  std::vector<double> values;
  for (int k = 0; k < count; ++k) values.push_back(first + (last - first) * k / (count - 1));
  values.back() = last;
  return values;
}

WindowBit read_window_bit(const std::string& text) {
  if (text == "new") return WindowBit::as_new;
  if (text == "half") return WindowBit::half_worn;
  if (text == "start") return WindowBit::as_it_starts;
  throw WrongWords("--worn is new, half or start, not \"" + text + "\"");
}

void read_limit(const std::string& text, const UnitParser& units, WindowLimits& limits) {
  const auto equals = text.find('=');
  if (equals == std::string::npos)
    throw WrongWords("--limit takes NAME=VALUE, as in \"heat=300 degC\" or \"wear=none\", not \"" + text +
                     "\"");
  const std::string name = trimmed(text.substr(0, equals)), value = trimmed(text.substr(equals + 1));
  std::vector<std::string> names;
  for (const Settable& one : settable) {
    names.push_back(one.name);
    if (name != one.name) continue;
    double& limit = limits.*one.value;
    limit = value == "none" ? one.none : read_value("--limit " + name, value, *one.wanted, units);
    if (!(limit > 0.0) && one.none > 0.0)
      throw WrongWords("--limit " + name + ": a limit is above 0 (\"none\" takes it away)");
    return;
  }
  const std::string nearest = nearest_word(name, names);
  std::string all;
  for (const std::string& each : names) all += (all.empty() ? "" : ", ") + each;
  throw WrongWords("--limit: there is no limit \"" + name + "\" (there are " + all + ")" +
                   (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
}

}  // namespace dullcast
