#include "engine/input/cutter_findings.hpp"

#include <algorithm>
#include <cctype>
#include <string_view>

namespace dullcast::input {

namespace {

/// Whether a text is a word, or begins with it and a blank; `rest` is what follows.
bool begins_with_word(std::string_view text, std::string_view word, std::string& rest) {
  if (!text.starts_with(word)) return false;
  text.remove_prefix(word.size());
  if (!text.empty() && text.front() != ' ') return false;
  const auto first = text.find_first_not_of(' ');
  rest = first == text.npos ? std::string() : std::string(text.substr(first));
  return true;
}

void no_finding(const YamlValue& item, const std::string& path, Reading& reading) {
  reading.problems.error(
      item.location, path,
      kind_name(item) +
          " says nothing of a cutter; write its worn height, such as 0.4 mm, or new, lost, "
          "chipped 0.5 mm, table gone or not measured");
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

CutterFinding read_finding(const YamlValue& item, const std::string& path, Reading& reading) {
  CutterFinding finding;
  const std::string& text = item.text;
  if (!item.is_scalar() || text.empty() || !std::isalpha(static_cast<unsigned char>(text.front()))) {
    finding.height = read_number(item, path, base::dimension::length, base::range::not_negative, reading);
    return finding;
  }
  std::string height;
  if (text == "new") {
    finding.renewed = true;
  } else if (text == "lost") {
    finding.lost = true;
  } else if (begins_with_word(text, "chipped", height)) {
    finding.chipped = true;
  } else if (begins_with_word(text, "table gone", height)) {
    finding.table_gone = true;
  } else if (text != "not measured") {
    no_finding(item, path, reading);
  }
  if (!height.empty()) {
    YamlValue number = item;
    number.text = height;
    finding.height = read_number(number, path, base::dimension::length, base::range::not_negative, reading);
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
