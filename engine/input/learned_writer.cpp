#include "engine/input/learned_writer.hpp"

#include <algorithm>
#include <iomanip>
#include <map>
#include <sstream>
#include <stdexcept>

#include "engine/input/located_yaml.hpp"
#include "engine/input/record_sections.hpp"
#include "engine/input/yaml_lines.hpp"

namespace dullcast::input {
namespace {

/// The file's section and record of a number, from its name: "rock sandstone: cerchar_abrasivity".
struct Place {
  std::string section, record, key;
};

Place place_of_name(const std::string& name) {
  const std::size_t blank = name.find(' '), colon = name.rfind(": ");
  if (blank == name.npos || colon == name.npos) return {"models", "", name};
  const auto section =
      std::find_if(record_sections.begin(), record_sections.end(),
                   [&](const RecordSection& one) { return one.word == name.substr(0, blank); });
  if (section == record_sections.end()) return {"models", "", name};
  return {std::string(section->key), name.substr(blank + 1, colon - blank - 1), name.substr(colon + 2)};
}

}  // namespace

std::string together_text(const scenario::NumbersTogether& together, int indent) {
  if (together.names.empty()) return "";
  const std::string blanks(static_cast<std::size_t>(indent), ' ');
  std::ostringstream out;
  out << blanks << "together:\n" << blanks << "  numbers: [";
  for (std::size_t k = 0; k < together.names.size(); ++k)
    out << (k == 0 ? "" : ", ") << yaml_quoted(together.names[k]);
  out << "]\n" << blanks << "  correlation:\n" << std::setprecision(6);
  for (Eigen::Index i = 0; i < together.correlation.rows(); ++i) {
    out << blanks << "    - [";
    for (Eigen::Index j = 0; j <= i; ++j) out << (j == 0 ? "" : ", ") << together.correlation(i, j);
    out << "]\n";
  }
  return out.str();
}

std::string learned_text(const scenario::Learned& learned, const std::string& remark) {
  YamlLines lines;
  std::istringstream remarks(remark);
  for (std::string line; std::getline(remarks, line);) lines.raw("# " + line + "\n");
  lines.line(0, "inspected_bits", std::to_string(learned.bits));
  if (!learned.shelf.empty()) lines.line(0, "shelf", yaml_quoted(learned.shelf));
  if (!learned.made.empty()) lines.line(0, "made", yaml_quoted(learned.made));
  lines.line(0, "coefficient_factor", exact_text(learned.coefficient_factor));
  std::map<std::string, std::map<std::string, std::map<std::string, const scenario::LearnedNumber*>>>
      sections;
  for (const scenario::LearnedNumber& number : learned.numbers) {
    if (!scenario::kind_of_number(number.name))
      throw std::invalid_argument("the library has no number " + number.name);
    const Place place = place_of_name(number.name);
    sections[place.section][place.record][place.key] = &number;
  }
  for (const auto& [section, records] : sections) {
    lines.line(0, section, "");
    for (const auto& [record, numbers] : records) {
      if (!record.empty()) lines.line(2, yaml_quoted(record), "");
      for (const auto& [key, number] : numbers)
        lines.line(record.empty() ? 2 : 4, key,
                   quantity_text(number->now, *scenario::dimension_of_number(number->name)));
    }
  }
  lines.raw(together_text(learned.together, 0));
  return lines.text();
}

}  // namespace dullcast::input
