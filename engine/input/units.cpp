#include "engine/input/units.hpp"

#include <cmath>
#include <map>
#include <utility>

#include "engine/input/unit_database.hpp"
#include "engine/input/unit_words.hpp"
#include "models/common/constants.hpp"

namespace dullcast::input {

namespace {

constexpr std::size_t longest_unit = 80;

bool has_word_of_turning(std::string_view words) {
  return words.find("revolution") != std::string_view::npos || words.find("rad") != std::string_view::npos ||
         words.find("degree") != std::string_view::npos;
}

std::string in_quotes(std::string_view text) {
  return "\"" + std::string(text) + "\"";
}

}  // namespace

struct UnitParser::System {
  UnitDatabase database;
  mutable std::map<std::pair<std::string, std::string>, UnitLine> met;  // by the words from and to

  /// Factor or affine conversion of one number; throws UnitError when the units do not convert.
  double convert(double number, std::string_view unit, const std::string& words, const char* si,
                 const base::Dimension& wanted) const {
    if (!is_plain_unit(unit)) unknown(unit, wanted);
    const auto key = std::make_pair(words, std::string(si));
    auto found = met.find(key);
    if (found == met.end()) {
      UnitLine line = database.line(words, si);
      if (!line) {
        const std::string hint = by_capitals(unit, si, wanted);
        if (!database.knows(words)) unknown(unit, wanted, hint);
        throw UnitError(in_quotes(unit) + " is not a unit of " + wanted.name + hint + "; write " +
                        wanted.examples);
      }
      found = met.emplace(key, std::move(line)).first;
    }
    const double result = found->second(number);
    if (!std::isfinite(result)) {
      throw UnitError("is too large a number; write " + std::string(wanted.examples));
    }
    return result;
  }

  /// What SI unit was meant, where capitals alone are wrong; empty where that is not what is wrong.
  std::string by_capitals(std::string_view unit, const char* si, const base::Dimension& wanted) const {
    std::string meant;
    for (const std::string& other : other_capitals(unit)) {
      if (database.line(udunits_words(other, wanted.rule), si))
        meant += (meant.empty() ? "" : " or ") + other;
    }
    return meant.empty() ? "" : ": capitals tell SI units apart, and this may be meant as " + meant;
  }

  [[noreturn]] static void unknown(std::string_view unit, const base::Dimension& wanted,
                                   const std::string& hint = {}) {
    throw UnitError("does not know the unit " + in_quotes(unit) + hint + "; write " + wanted.examples);
  }
};

UnitParser::UnitParser() : system_(std::make_unique<System>()) {}

UnitParser::~UnitParser() = default;
UnitParser::UnitParser(UnitParser&&) noexcept = default;
UnitParser& UnitParser::operator=(UnitParser&&) noexcept = default;

namespace {

/// Takes the currency word off a unit text: "$/h" -> "/h". Throws UnitError when it is another word.
std::string without_currency(const std::string& unit, std::string_view currency,
                             const base::Dimension& wanted) {
  if (unit.starts_with(currency)) {
    std::string rest = unit.substr(currency.size());
    const auto start = rest.find_first_not_of(" \t");
    rest = start == std::string::npos ? "" : rest.substr(start);
    if (rest.empty() || rest.front() == '/') return rest;
  }
  std::string example = wanted.examples;
  if (const auto sign = example.find('$'); sign != std::string::npos) example.replace(sign, 1, currency);
  throw UnitError(in_quotes(unit) + " is not " + wanted.name + " in " + std::string(currency) + "; write " +
                  example);
}

}  // namespace

double UnitParser::parse(std::string_view text, const base::Dimension& wanted,
                         std::string_view currency) const {
  std::string sign_first;
  if (wanted.rule == base::UnitRule::money && text.starts_with(currency)) {
    // "$1200" and "$85/h": the sign goes behind the number.
    const std::string_view rest = text.substr(currency.size());
    const auto slash = rest.find('/');
    sign_first = std::string(rest.substr(0, slash)) + " " + std::string(currency) +
                 (slash == std::string_view::npos ? "" : std::string(rest.substr(slash)));
    text = sign_first;
  }
  auto [number, unit] = split_number(text, wanted);
  if (unit.size() > longest_unit) {
    throw UnitError("has too long a unit; write " + std::string(wanted.examples));
  }
  if (wanted.rule == base::UnitRule::number) {
    if (unit.empty()) return number;
    if (unit == "%" || unit == "percent") return number / 100.0;
    throw UnitError(in_quotes(unit) + " is a unit where a plain number is wanted; write " + wanted.examples);
  }
  if (unit.empty()) {
    throw UnitError("has no unit, and " + std::string(wanted.name) + " is wanted; write " + wanted.examples);
  }
  if (wanted.rule == base::UnitRule::money) {
    const std::string per = without_currency(unit, currency, wanted);
    const bool wants_per = *wanted.si != '\0';
    if (per.empty() != !wants_per || per == "/") {
      throw UnitError(in_quotes(unit) + " is not " + wanted.name + "; write " + wanted.examples);
    }
    if (!wants_per) return number;
    const std::string words = udunits_words(per.substr(1), base::UnitRule::plain);
    const double result = number / system_->convert(1.0, per.substr(1), words, wanted.si, wanted);
    if (!std::isfinite(result)) throw UnitError("is no finite amount; write " + std::string(wanted.examples));
    return result;
  }
  const std::string words = udunits_words(unit, wanted.rule);
  if (wanted.rule == base::UnitRule::rotary_speed && !has_word_of_turning(words)) {
    throw UnitError(in_quotes(unit) + " does not say what turns; write " + wanted.examples);
  }
  if (wanted.rule == base::UnitRule::angle && !has_word_of_turning(words)) {
    throw UnitError(in_quotes(unit) + " is not a unit of " + wanted.name + "; write " + wanted.examples);
  }
  if (wanted.rule == base::UnitRule::weight_per_length) {
    try {
      return standard_gravity * system_->convert(number, unit, words, "kg/m", wanted);
    } catch (const UnitError&) {
      // no mass per length: it must be a force per length
    }
  }
  return system_->convert(number, unit, words, wanted.si, wanted);
}

}  // namespace dullcast::input
