#include "tools/commands/window_words.hpp"

#include <limits>

#include "engine/base/words.hpp"
#include "engine/input/problems.hpp"
#include "engine/input/unit_words.hpp"
#include "tools/commands/command.hpp"

namespace dullcast::commands {
namespace {

/// A limit that can be set by its name, what it is a quantity of, and what stands for none.
struct Settable {
  const char* name;
  double analysis::WindowLimits::*value;
  const base::Dimension* wanted;
  double none;
};

constexpr double infinite = std::numeric_limits<double>::infinity();

constexpr Settable settable[] = {
    {"heat", &analysis::WindowLimits::hottest_flat, &base::dimension::temperature, infinite},
    {"wear", &analysis::WindowLimits::metres_to_allowance, &base::dimension::depth, 0.0},
    {"chips", &analysis::WindowLimits::chips, &base::dimension::number, infinite},
    {"seats", &analysis::WindowLimits::load_share, &base::dimension::number, infinite},
    {"progress", &analysis::WindowLimits::least_progress, &base::dimension::speed, 0.0},
    {"packing", &analysis::WindowLimits::packing, &base::dimension::number, infinite},
    {"film", &analysis::WindowLimits::film, &base::dimension::time, infinite},
    {"weight", &analysis::WindowLimits::weight, &base::dimension::force, infinite},
    {"pressure", &analysis::WindowLimits::pressure, &base::dimension::pressure, infinite},
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
std::string with_unit_of(const std::string& text, const std::string& other, const base::Dimension& wanted) {
  if (has_unit(text)) return text;
  try {
    return text + " " + input::split_number(other, wanted).unit;
  } catch (const input::UnitError&) {
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

double read_value(const std::string& option, const std::string& text, const base::Dimension& wanted,
                  const input::UnitParser& units) {
  double value = 0.0;
  try {
    value = units.parse(trimmed(text), wanted);
  } catch (const input::UnitError& error) {
    throw WrongWords(option + ": " + error.what());
  }
  if (!(value >= 0.0)) throw WrongWords(option + ": \"" + trimmed(text) + "\" is below 0");
  return value;
}

std::vector<double> read_range(const std::string& option, const std::string& text,
                               const base::Dimension& wanted, const input::UnitParser& units) {
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

analysis::WindowBit read_window_bit(const std::string& text) {
  if (text == "new") return analysis::WindowBit::as_new;
  if (text == "half") return analysis::WindowBit::half_worn;
  if (text == "start") return analysis::WindowBit::as_it_starts;
  throw WrongWords("--worn is new, half or start, not \"" + text + "\"");
}

void read_limit(const std::string& text, const input::UnitParser& units, analysis::WindowLimits& limits) {
  const auto equals = text.find('=');
  if (equals == std::string::npos)
    throw WrongWords("--limit takes NAME=VALUE, as in \"heat=300 degC\" or \"wear=none\", not \"" + text +
                     "\"");
  const std::string name = trimmed(text.substr(0, equals)), value = trimmed(text.substr(equals + 1));
  std::vector<std::string> names;
  for (const Settable& one : settable) {
    names.emplace_back(one.name);
    if (name != one.name) continue;
    double& limit = limits.*one.value;
    limit = value == "none" ? one.none : read_value("--limit " + name, value, *one.wanted, units);
    if (!(limit > 0.0) && one.none > 0.0)
      throw WrongWords("--limit " + name + ": a limit is above 0 (\"none\" takes it away)");
    return;
  }
  const std::string nearest = base::nearest_word(name, names);
  std::string all;
  for (const std::string& each : names) all += (all.empty() ? "" : ", ") + each;
  throw WrongWords("--limit: there is no limit \"" + name + "\" (there are " + all + ")" +
                   (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
}

}  // namespace dullcast::commands
