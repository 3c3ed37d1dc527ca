#include "engine/input/unit_words.hpp"

#include <algorithm>
#include <array>

#include "engine/input/letters.hpp"

namespace dullcast::input {

namespace {

/// A share is a word too.
bool word_letter(char c) {
  return letter(c) || c == '%';
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return text;
}

struct Word {
  std::string_view trade, udunits;
};

// A (mechanical) horsepower is 550 foot pounds-force a second (NIST SP 811, appendix B [hb]).
// A US gallon is 231 cubic inches, a barrel of the oil trade 42 gallons (NIST Handbook 44, appendix C [hb]);
// the database's own entries are rounded.
constexpr std::array words{Word{"gal", "(231 inch^3)"},
                           Word{"gallon", "(231 inch^3)"},
                           Word{"gallons", "(231 inch^3)"},
                           Word{"gpm", "(231 inch^3/minute)"},
                           Word{"lpm", "(litre/minute)"},
                           Word{"cfm", "(foot^3/minute)"},
                           Word{"ppg", "(pound/(231 inch^3))"},
                           Word{"cP", "centipoise"},
                           Word{"cp", "centipoise"},
                           Word{"deg", "degree"},
                           Word{"°", "degree"},
                           Word{"bbl", "(9702 inch^3)"},
                           Word{"barrel", "(9702 inch^3)"},
                           Word{"barrels", "(9702 inch^3)"},
                           Word{"rpm", "(revolution/minute)"},
                           Word{"rev", "revolution"},
                           Word{"revs", "revolution"},
                           Word{"kWh", "(kW hour)"},
                           Word{"hp", "(550 foot pound_force/second)"},
                           Word{"lbs", "pound"},
                           Word{"mins", "minute"},
                           Word{"hrs", "hour"},
                           Word{"thou", "(0.001 inch)"},
                           Word{"percent", "%"}};
constexpr std::array force_words{
    Word{"lb", "lbf"},           Word{"lbs", "lbf"},          Word{"pounds", "lbf"}, Word{"pound", "lbf"},
    Word{"klb", "klbf"},         Word{"klbs", "klbf"},        Word{"kg", "kgf"},     Word{"t", "(1000 kgf)"},
    Word{"tonne", "(1000 kgf)"}, Word{"tonnes", "(1000 kgf)"}};
constexpr std::array temperature_words{Word{"C", "degC"}, Word{"F", "degF"}};
constexpr std::array difference_words{Word{"C", "K"},       Word{"degC", "K"},    Word{"°C", "K"},
                                      Word{"celsius", "K"}, Word{"Celsius", "K"}, Word{"F", "degR"},
                                      Word{"degF", "degR"}, Word{"°F", "degR"}};

// Words of the trade that no SI unit is told from by its capitals, beside those of the tables above. (Gal is
// also a unit of acceleration and H one of inductance; no scenario has either.)
constexpr std::array<std::string_view, 36> in_any_case{
    "lb",    "pound",  "pounds", "lbf",    "klbf",   "psi",     "ksi",     "ft",     "foot",
    "feet",  "in",     "inch",   "inches", "min",    "minute",  "minutes", "hr",     "h",
    "hour",  "hours",  "day",    "days",   "degree", "degrees", "degc",    "degf",   "bar",
    "litre", "litres", "liter",  "liters", "metre",  "metres",  "meter",   "meters", "rad"};
// SI units that differ from one another, or from other units, by capitals alone.
constexpr std::string_view si_units[] = {"m",   "mm", "cm", "km",  "um", "Pa", "kPa", "mPa", "hPa", "MPa",
                                         "GPa", "N",  "kN", "daN", "MN", "mN", "W",   "kW",  "mW",  "MW",
                                         "J",   "kJ", "mJ", "MJ",  "GJ", "K",  "kg",  "g",   "mg",  "kgf",
                                         "t",   "s",  "ms", "L",   "mL", "ml", "C",   "degC"};

std::string lower(std::string_view word) {
  std::string result(word);
  for (char& c : result) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return result;
}

template <std::size_t n>
std::string_view look_up(std::string_view word, const std::array<Word, n>& table) {
  for (const auto& entry : table) {
    if (entry.trade == word) return entry.udunits;
  }
  return {};
}

/// What the trade's tables have for a word as it is written; empty when they lack it.
std::string_view in_tables(std::string_view word, base::UnitRule rule) {
  std::string_view found;
  if (rule == base::UnitRule::force) found = look_up(word, force_words);
  if (rule == base::UnitRule::temperature) found = look_up(word, temperature_words);
  if (rule == base::UnitRule::temperature_difference) found = look_up(word, difference_words);
  return found.empty() ? look_up(word, words) : found;
}

std::string in_udunits(std::string_view word, base::UnitRule rule) {
  if (const auto found = in_tables(word, rule); !found.empty()) return std::string(found);
  std::string small = lower(word);
  // One letter alone is an SI unit, an hour but for its capital.
  if (small == word || (word.size() == 1 && word != "H")) {
    if (small != "degc" && small != "degf") return std::string(word);
  }
  if (small == "degc" || small == "degf") small.back() = small.back() == 'c' ? 'C' : 'F';
  if (const auto found = in_tables(small, rule); !found.empty()) return std::string(found);
  const bool known = small.starts_with("deg") ||
                     std::find(in_any_case.begin(), in_any_case.end(), small) != in_any_case.end();
  return known ? small : std::string(word);
}

// Ways of writing a product without a sign that UDUNITS reads as one prefix-and-unit ("mK" is a millikelvin).
std::string with_products_apart(std::string_view unit) {
  constexpr std::array<Word, 6> glued{Word{"W/mK", "W/(m K)"},   Word{"W/m K", "W/(m K)"},
                                      Word{"W/m2K", "W/(m2 K)"}, Word{"W/m2 K", "W/(m2 K)"},
                                      Word{"J/kgK", "J/(kg K)"}, Word{"J/kg K", "J/(kg K)"}};
  for (const auto& entry : glued) {
    if (unit == entry.trade) return std::string(entry.udunits);
  }
  std::string result(unit);
  // "deg C" and "deg F" with a blank.
  for (std::string_view spaced : {"deg C", "deg F", "° C", "° F"}) {
    for (auto at = result.find(spaced); at != std::string::npos; at = result.find(spaced, at)) {
      result.replace(at, spaced.size(), spaced.back() == 'C' ? "degC" : "degF");
    }
  }
  return result;
}

}  // namespace

std::vector<std::string> other_capitals(std::string_view unit) {
  std::vector<std::string> result;
  std::size_t end = 0;
  while (end < unit.size() && word_letter(unit[end])) ++end;
  const std::string small = lower(unit.substr(0, end));
  for (const std::string_view known : si_units) {
    if (known != unit.substr(0, end) && lower(known) == small)
      result.push_back(std::string(known) + std::string(unit.substr(end)));
  }
  return result;
}

bool is_plain_unit(std::string_view unit) {
  int open = 0;
  for (std::size_t i = 0; i < unit.size(); ++i) {
    const char c = unit[i];
    if (!word_letter(c) && !digit(c) && !blank(c) &&
        std::string_view("^*/.-+()").find(c) == std::string_view::npos) {
      return false;
    }
    if (c == '(') ++open;
    if (c == ')') --open;
    if (open < 0) return false;
    if (!word_letter(c) || (i > 0 && word_letter(unit[i - 1]))) continue;
    std::size_t end = i;
    while (end < unit.size() && word_letter(unit[end])) ++end;
    const std::string_view word = unit.substr(i, end - i);
    for (std::string_view shift :
         {"since", "SINCE", "after", "AFTER", "from", "FROM", "ref", "REF", "re", "RE"}) {
      if (word == shift) return false;
    }
  }
  return open == 0;
}

std::string udunits_words(std::string_view unit, base::UnitRule rule) {
  const std::string text = with_products_apart(trimmed(unit));
  std::string result;
  std::size_t i = 0;
  while (i < text.size()) {
    if (word_letter(text[i])) {
      std::size_t end = i;
      while (end < text.size() && word_letter(text[end])) ++end;
      result += in_udunits(std::string_view(text).substr(i, end - i), rule);
      i = end;
    } else if (text[i] == '/') {
      // "/100m" and "/100 ft" mean per hundred of them; UDUNITS would divide by 100 and multiply by the unit.
      std::size_t number = i + 1;
      while (number < text.size() && blank(text[number])) ++number;
      std::size_t unit_start = number;
      while (unit_start < text.size() && (digit(text[unit_start]) || text[unit_start] == '.')) ++unit_start;
      const std::string count = text.substr(number, unit_start - number);
      while (unit_start < text.size() && blank(text[unit_start])) ++unit_start;
      std::size_t end = unit_start;
      while (end < text.size() && word_letter(text[end])) ++end;
      if (!count.empty() && end > unit_start) {
        result += "/(" + count + " ";
        result += in_udunits(std::string_view(text).substr(unit_start, end - unit_start), rule);
        result += ")";
        i = end;
      } else {
        result += text[i++];
      }
    } else {
      result += text[i++];
    }
  }
  return result;
}

}  // namespace dullcast::input
