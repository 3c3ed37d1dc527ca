#include "engine/sweep/manifest.hpp"

#include <boost/crc.hpp>
#include <cmath>
#include <cstdio>
#include <sstream>

#include "engine/input/map_reader.hpp"
#include "engine/input/yaml_lines.hpp"

namespace dullcast::sweep {
namespace {

constexpr std::size_t most_lines_shown = 3;

std::string required_word(input::MapReader& map, const char* key) {
  const auto word = map.whole_text(key);
  if (!word) map.error(key, "is missing");
  return word.value_or("");
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

/// The first lines that differ, past those that begin and end alike.
std::string first_difference(const std::string& then, const std::string& now) {
  const std::vector<std::string> old_lines = lines_of(then), new_lines = lines_of(now);
  std::size_t k = 0;
  while (k < old_lines.size() && k < new_lines.size() && old_lines[k] == new_lines[k]) ++k;
  std::size_t old_end = old_lines.size(), new_end = new_lines.size();
  while (old_end > k && new_end > k && old_lines[old_end - 1] == new_lines[new_end - 1]) {
    --old_end;
    --new_end;
  }
  std::string text = " from line " + std::to_string(k + 1) + " on:";
  const auto show = [&](const std::vector<std::string>& lines, std::size_t end, const char* mark) {
    for (std::size_t i = k; i < std::min(end, k + most_lines_shown); ++i)
      text += "\n    " + std::string(mark) + lines[i];
    if (end > k + most_lines_shown)
      text +=
          "\n    " + std::string(mark) + "(" + std::to_string(end - k - most_lines_shown) + " more lines)";
  };
  show(old_lines, old_end, "was: ");
  show(new_lines, new_end, "is:  ");
  return text;
}

}  // namespace

std::string digits_of(const std::string& bytes) {
  boost::crc_32_type crc;
  crc.process_bytes(bytes.data(), bytes.size());
  char digits[9];
  std::snprintf(digits, sizeof digits, "%08x", static_cast<unsigned>(crc.checksum()));
  return digits;
}

std::string arithmetic_digits() {
  boost::crc_32_type crc;
  const auto add = [&](double value) { crc.process_bytes(&value, sizeof value); };
  for (int k = 1; k <= 2000; ++k) {
    volatile double x = 0.013 * k;  // at run time, by the machine's own library
    add(std::exp(-x));
    add(std::log(x));
    add(std::pow(x, 1.37));
    add(std::sin(x));
    add(std::cos(x));
    add(std::tan(x));
    add(std::atan(x));
    add(std::tanh(x));
    add(std::cbrt(x));
    add(std::erfc(0.2 * x));
    add(std::expm1(-x));
    add(std::sqrt(x));
  }
  char digits[9];
  std::snprintf(digits, sizeof digits, "%08x", static_cast<unsigned>(crc.checksum()));
  return digits;
}

std::string manifest_text(const SweepManifest& manifest) {
  input::YamlLines lines;
  lines.raw("# What a sweep began with. Written and read by dullcast; do not edit.\n");
  lines.line(0, "beginning", "1");
  lines.line(0, "program", input::yaml_quoted(manifest.program));
  lines.line(0, "program_digits", input::yaml_quoted(manifest.program_digits));
  lines.line(0, "arithmetic", input::yaml_quoted(manifest.arithmetic));
  lines.line(0, "cases_per_chunk", std::to_string(manifest.cases_per_chunk));
  lines.line(0, "plan_file", input::yaml_quoted(manifest.texts.plan_file));
  lines.line(0, "plan", input::yaml_quoted(manifest.texts.plan));
  lines.line(0, "scenario_file", input::yaml_quoted(manifest.texts.scenario_file));
  lines.line(0, "scenario", input::yaml_quoted(manifest.texts.scenario));
  lines.line(0, "table_file", input::yaml_quoted(manifest.texts.table_file));
  lines.line(0, "table", input::yaml_quoted(manifest.texts.table));
  if (!manifest.texts.start.empty()) lines.line(0, "start", "");
  for (const std::string& set : manifest.texts.start) lines.raw("  - " + input::yaml_quoted(set) + "\n");
  lines.line(0, "library", "");
  for (const auto& [name, text] : manifest.texts.library.files) lines.line(2, name, input::yaml_quoted(text));
  return lines.text();
}

SweepManifest read_manifest(const std::string& text, const std::string& file) {
  input::Problems problems;
  const input::YamlValue root = input::parse_yaml(text, file, problems);
  problems.throw_if_any();
  const input::UnitParser units;
  input::Reading reading{units, problems, "$"};
  input::MapReader map(root, "", reading, {file, 1, 1});
  map.whole_number("beginning", 1, 1);
  SweepManifest manifest;
  manifest.program = required_word(map, "program");
  manifest.program_digits = required_word(map, "program_digits");
  manifest.arithmetic = required_word(map, "arithmetic");
  manifest.cases_per_chunk = map.long_whole_number("cases_per_chunk", 1, most_cases_per_chunk).value_or(1);
  SweepTexts& texts = manifest.texts;
  texts.plan_file = required_word(map, "plan_file");
  texts.plan = required_word(map, "plan");
  texts.scenario_file = required_word(map, "scenario_file");
  texts.scenario = required_word(map, "scenario");
  texts.table_file = map.whole_text("table_file").value_or("");
  texts.table = map.whole_text("table").value_or("");
  for (const input::YamlValue& set : map.list("start")) texts.start.push_back(set.text);
  input::MapReader library = map.map("library");
  texts.library.folder = "library";
  for (const char* name : input::library_files) texts.library.files[name] = required_word(library, name);
  library.finish();
  map.finish();
  problems.throw_if_any();
  return manifest;
}

std::string fingerprint_of(const SweepManifest& manifest) {
  return digits_of(manifest_text(manifest));
}

std::string told_below(const std::vector<std::string>& sentences) {
  std::string text;
  for (const std::string& sentence : sentences) text += "\n  " + sentence;
  return text;
}

std::vector<std::string> differences(const SweepManifest& then, const SweepManifest& now) {
  std::vector<std::string> all;
  const auto compare = [&](const std::string& what, const std::string& a, const std::string& b) {
    if (a != b) all.push_back(what + " differs" + first_difference(a, b));
  };
  compare("the plan " + now.texts.plan_file, then.texts.plan, now.texts.plan);
  compare("the scenario " + now.texts.scenario_file, then.texts.scenario, now.texts.scenario);
  compare("the table " + now.texts.table_file, then.texts.table, now.texts.table);
  compare("how the bit starts, by an earlier result,", joined(then.texts.start), joined(now.texts.start));
  for (const auto& [name, text] : now.texts.library.files) {
    const auto found = then.texts.library.files.find(name);
    compare("the library's " + name, found == then.texts.library.files.end() ? "" : found->second, text);
  }
  if (then.program != now.program) {
    all.push_back("the program is another: it was " + then.program + " and is " + now.program);
  } else if (then.program_digits != now.program_digits) {
    all.push_back("the program is another build: the CRC-32 of its file was " + then.program_digits +
                  " and is " + now.program_digits);
  }
  if (then.arithmetic != now.arithmetic) {
    all.push_back(
        "this machine's arithmetic differs in the last digit from that of the machine it began on (" +
        then.arithmetic + " and " + now.arithmetic + ")");
  }
  return all;
}

}  // namespace dullcast::sweep
