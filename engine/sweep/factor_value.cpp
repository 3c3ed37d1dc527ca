#include "engine/sweep/factor_value.hpp"

#include <algorithm>

#include "engine/base/plain_text.hpp"
#include "engine/base/words.hpp"
#include "engine/input/any_quantity.hpp"

namespace dullcast::sweep {
namespace {

// Words are grades, rocks, names of bits: more are no words but a column that was meant to be numbers.
constexpr std::size_t most_words = 1000;

/// Whether a text begins like a number with a space or a comma in it ("6 750 lbf"), which no dimension reads
/// and no word is.
bool is_spaced_number(const std::string& text) {
  const std::size_t end = std::min(text.find_first_not_of("0123456789."), text.size());
  if (end == 0 || end == text.size()) return false;
  const std::size_t next = std::min(text.find_first_not_of(" ,", end), text.size());
  return next > end && next < text.size() && std::isdigit(static_cast<unsigned char>(text[next]));
}

}  // namespace

void add_value(const std::string& text, const scenario::Location& place, const std::string& path,
               input::Reading& reading, FactorTarget& target, std::vector<double>& into) {
  const bool first = target.dimension == nullptr && target.words.empty();
  if (first) {
    if (const auto value = input::value_of_any_kind(reading.units, text, reading.currency)) {
      target.dimension = value->dimension;
    } else if (is_spaced_number(text)) {
      reading.problems.error(place, path,
                             input::quoted_text(text) +
                                 " has more than one number in it: write a number without "
                                 "spaces or commas, a fraction as 7-7/8 with its unit");
      return;
    }
  }
  if (target.dimension) {
    try {
      into.push_back(reading.units.parse(text, *target.dimension, reading.currency));
    } catch (const input::UnitError& error) {
      reading.problems.error(place, path, error.what());
    }
    return;
  }
  if (!base::is_plain(text)) {
    reading.problems.error(place, path,
                           input::quoted_text(text) + " holds a control character; write plain words");
    return;
  }
  auto found = std::find(target.words.begin(), target.words.end(), text);
  if (found == target.words.end()) {
    if (target.words.size() >= most_words) {
      reading.problems.error(place, path,
                             "\"" + text + "\" is one more word than a factor may have, " +
                                 std::to_string(most_words) + "; were numbers with units meant?");
      return;
    }
    found = target.words.insert(found, text);
  }
  into.push_back(static_cast<double>(found - target.words.begin()));
}

}  // namespace dullcast::sweep
