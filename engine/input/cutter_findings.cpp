#include "engine/input/cutter_findings.hpp"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <stdexcept>
#include <string_view>

#include "engine/base/words.hpp"

namespace dullcast::input {

namespace {

/// The text with its capitals A to Z made small: spreadsheets begin a cell with one.
std::string small_letters(std::string text) {
  for (char& c : text) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return text;
}

/// Whether a text is a word, or begins with it and a blank; `rest` is what follows.
bool begins_with_word(std::string_view text, std::string_view word, std::string& rest) {
  if (small_letters(std::string(text.substr(0, word.size()))) != word) return false;
  text.remove_prefix(word.size());
  if (!text.empty() && text.front() != ' ') return false;
  const auto first = text.find_first_not_of(' ');
  rest = first == text.npos ? std::string() : std::string(text.substr(first));
  return true;
}

void no_finding(const YamlValue& item, const std::string& path, Reading& reading, bool inspected) {
  reading.problems.error(
      item.location, path,
      kind_name(item) + " says nothing of a cutter; write its worn height, such as 0.4 mm, " +
          (inspected ? "at least 2 mm or flat 6 mm, " : "") + "or new, lost, chipped 0.5 mm, " +
          (inspected ? "heat-checked, " : "") + "table gone or not measured");
}

/// Reads a height into `finding`: a length, or what an inspection may say in its place.
void read_height(const YamlValue& item, const std::string& path, Reading& reading,
                 const std::optional<double>& cutter_radius, CutterFinding& finding) {
  YamlValue number = item;
  std::string rest;
  if (cutter_radius && begins_with_word(number.text, "at least", rest)) {
    finding.at_least = true;
    number.text = rest;
  }
  const bool flat = cutter_radius && begins_with_word(number.text, "flat", rest);
  if (flat) number.text = rest;
  const auto length = read_number(number, path, base::dimension::length, base::range::not_negative, reading);
  if (length && cutter_radius && *length > 2.0 * *cutter_radius) {
    const std::string across = base::plain_number(2000.0 * *cutter_radius) + " mm across";
    reading.problems.error(item.location, path,
                           quoted_text(item.text) +
                               (flat ? " is longer than the table itself, which is "
                                     : " is more than the whole cutter, which is ") +
                               across + "; measure again, or check the unit");
    return;
  }
  finding.height = length && flat ? worn_height_of_flat(*cutter_radius, *length) : length;
}

/// Between the nearest findings that tell wear.
std::optional<double> from_neighbours(const std::vector<CutterFinding>& findings,
                                      const Eigen::ArrayXd& radius, std::size_t i) {
  std::size_t inner = i, outer = i;
  while (inner > 0 && !findings[inner].tells_wear()) --inner;
  while (outer + 1 < findings.size() && !findings[outer].tells_wear()) ++outer;
  const bool has_inner = findings[inner].tells_wear(), has_outer = findings[outer].tells_wear();
  if (!has_inner && !has_outer) return std::nullopt;
  if (!has_inner || !has_outer) return findings[has_inner ? inner : outer].height;
  const auto at = [&](std::size_t k) { return radius(static_cast<Eigen::Index>(k)); };
  const double span = at(outer) - at(inner);
  const double share = span > 0.0 ? std::clamp((at(i) - at(inner)) / span, 0.0, 1.0) : 0.5;
  return *findings[inner].height + share * (*findings[outer].height - *findings[inner].height);
}

}  // namespace

double worn_height_of_flat(double cutter_radius, double flat) {
  const double half = 0.5 * flat;
  if (!(half >= 0.0 && half <= cutter_radius))
    throw std::domain_error("a flat across the face is from 0 to the cutter's diameter long");
  // a - sqrt(a^2 - h^2), written so that short flats lose no digits.
  return half * half / (cutter_radius + std::sqrt((cutter_radius - half) * (cutter_radius + half)));
}

CutterFinding read_finding(const YamlValue& item, const std::string& path, Reading& reading,
                           std::optional<double> cutter_radius) {
  CutterFinding finding;
  const std::string& text = item.text;
  std::string height;
  if (!item.is_scalar() || text.empty() || !std::isalpha(static_cast<unsigned char>(text.front())) ||
      (cutter_radius &&
       (begins_with_word(text, "at least", height) || begins_with_word(text, "flat", height)))) {
    read_height(item, path, reading, cutter_radius, finding);
    return finding;
  }
  const std::string words = small_letters(text);
  if (words == "new") {
    finding.renewed = true;
  } else if (words == "lost") {
    finding.lost = true;
  } else if (begins_with_word(text, "chipped", height)) {
    finding.chipped = true;
  } else if (begins_with_word(text, "table gone", height)) {
    finding.table_gone = true;
  } else if (cutter_radius && (begins_with_word(text, "heat-checked", height) ||
                               begins_with_word(text, "heat checked", height))) {
    finding.heat_checked = true;
  } else if (words != "not measured") {
    no_finding(item, path, reading, cutter_radius.has_value());
  }
  if (!height.empty()) {
    YamlValue number = item;
    number.text = height;
    read_height(number, path, reading, cutter_radius, finding);
  }
  return finding;
}

std::optional<Eigen::ArrayXd> heights_of(const std::vector<CutterFinding>& findings,
                                         const Eigen::ArrayXd& radius) {
  Eigen::ArrayXd heights = Eigen::ArrayXd::Zero(static_cast<Eigen::Index>(findings.size()));
  for (std::size_t i = 0; i < findings.size(); ++i) {
    const CutterFinding& one = findings[i];
    if (one.renewed || one.lost) continue;
    const auto height = one.height ? one.height : from_neighbours(findings, radius, i);
    if (!height) return std::nullopt;
    heights(static_cast<Eigen::Index>(i)) = *height;
  }
  return heights;
}

}  // namespace dullcast::input
