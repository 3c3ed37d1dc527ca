#include <gtest/gtest.h>

#include <cctype>
#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>

#include "engine/storage/bit_fields.hpp"
#include "engine/storage/fields.hpp"
#include "engine/storage/made_up_run.hpp"
#include "engine/storage/write_result.hpp"

namespace dullcast::storage {
namespace {

std::string text_of(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

/// Runs the Python script beside this test, whose netCDF4, xarray, h5dump and UDUNITS know nothing of us.
void open_elsewhere(int cutters, int rows, const simulation::RunOutcome& outcome, const std::string& how) {
  const made_up::Folder folder;
  write_result(folder / "run.h5", made_up::scenario(cutters), outcome);
  const std::string command = std::string("/usr/bin/python3 '") + DULLCAST_SOURCE_DIR +
                              "/tests/engine/storage/open_elsewhere.py' '" + (folder / "run.h5") + "' " +
                              std::to_string(cutters) + " " + std::to_string(rows) + " " + how + " > '" +
                              (folder / "said.txt") + "' 2>&1";
  EXPECT_EQ(std::system(command.c_str()), 0) << text_of(folder / "said.txt");
}

TEST(OpenElsewhere, NetcdfXarrayAndH5dumpReadAResult) {
  open_elsewhere(18, 3000, made_up::plain_outcome(18, 3000), "full");
}

TEST(OpenElsewhere, AShortRunOfOneCutter) {
  open_elsewhere(1, 1, made_up::plain_outcome(1, 1), "full");
}

TEST(OpenElsewhere, ARunThatRecordedNothing) {
  simulation::RunOutcome outcome = made_up::plain_outcome(3, 0);
  outcome.passages.clear();
  outcome.holes.clear();
  outcome.events.clear();
  outcome.rules.clear();
  outcome.rework_due.reset();
  outcome.beyond_repair.reset();
  open_elsewhere(3, 0, outcome, "empty");
}

/// The table rows "| `name` | unit |" of one group's section.
std::multiset<std::string> described(const std::string& readme, const std::string& group) {
  const std::size_t start = readme.find("### `" + group + "`");
  EXPECT_NE(start, std::string::npos) << "results/README.md does not describe " << group;
  if (start == std::string::npos) return {};
  std::istringstream section(readme.substr(start, readme.find("\n##", start + 1) - start));
  std::multiset<std::string> rows;
  for (std::string line; std::getline(section, line);) {
    if (line.rfind("| `", 0) != 0) continue;
    rows.insert(line.substr(0, line.find('|', line.find('|', 1) + 1) + 1));
  }
  return rows;
}

std::string row_of(const std::string& name, const std::string& units) {
  return "| `" + name + "` | " + (units.empty() ? "text" : units) + " |";
}

template <class... Rows>
void expect_described(const std::string& readme, const std::string& group, std::multiset<std::string> others,
                      const result_format::Fields<Rows>&... fields) {
  const auto add = [&](const auto& list) {
    for (const auto& field : list) others.insert(row_of(field.name, field.units));
  };
  (add(fields), ...);
  EXPECT_EQ(described(readme, group), others) << "results/README.md, " << group;
}

/// The README's tables and the files' datasets are the same, each once.
TEST(OpenElsewhere, TheReadmeDescribesEveryDatasetWithItsUnit) {
  namespace format = result_format;
  const std::string readme = text_of(std::string(DULLCAST_SOURCE_DIR) + "/results/README.md");
  expect_described(readme, "history", {}, format::history_fields());
  expect_described(readme, "layers", {}, format::layer_fields());
  expect_described(readme, "holes", {}, format::hole_fields());
  expect_described(readme, "events", {row_of("kind", "")}, format::event_fields());
  expect_described(readme, "bit", {}, format::bit_fields(), format::build_fields(), format::layout_fields(),
                   format::cutter_fields());
  expect_described(readme, "bit/kinds", {row_of("name", ""), row_of("grade", "")}, format::cutter_fields());
  expect_described(readme, "rework_rules", {}, format::rework_rule_fields());
  expect_described(readme, "band", {}, format::life_fields());
  expect_described(readme, "forecast", {}, format::notes_fields());
  expect_described(readme, "forecast/shares", {}, format::share_fields());
  expect_described(readme, "forecast/survival", {}, format::survival_fields());
  expect_described(readme, "outcome", {row_of("ended_by", "")}, format::outcome_fields());
  expect_described(readme, "outcome/end", {}, format::condition_fields());
  expect_described(readme, "outcome/rework_due", {row_of("pointed_cutter", "1")}, format::milestone_fields(),
                   format::condition_fields());
  expect_described(readme, "outcome/rules", {}, format::rule_fields());
  expect_described(readme, "outcome/hottest", {}, format::hottest_fields());
}

TEST(OpenElsewhere, TheReadmeNamesEveryKindOfEventEveryEndAndTheVersion) {
  const std::string readme = text_of(std::string(DULLCAST_SOURCE_DIR) + "/results/README.md");
  const auto line_with = [&](const std::string& opening) {
    const std::size_t start = readme.find(opening);
    EXPECT_NE(start, std::string::npos) << "results/README.md has no line " << opening;
    return start == std::string::npos ? "" : readme.substr(start, readme.find('\n', start) - start);
  };
  /// A word of its own, not the beginning or end of a longer one.
  const auto has_word = [](const std::string& line, const std::string& word) {
    const auto part = [](char c) { return std::isalnum(static_cast<unsigned char>(c)) || c == '_'; };
    for (std::size_t at = line.find(word); at != std::string::npos; at = line.find(word, at + 1)) {
      const std::size_t after = at + word.size();
      if ((at == 0 || !part(line[at - 1])) && (after == line.size() || !part(line[after]))) return true;
    }
    return false;
  };
  const std::string kinds = line_with("| `kind` | text | event |");
  for (const simulation::EventKind kind : result_format::all_event_kinds()) {
    EXPECT_TRUE(has_word(kinds, simulation::event_name(kind))) << simulation::event_name(kind);
  }
  const std::string ends = line_with("| `ended_by` | text | one value |");
  for (const simulation::EndedBy end : result_format::all_ends()) {
    EXPECT_TRUE(has_word(ends, simulation::ended_by_name(end))) << simulation::ended_by_name(end);
  }
  for (int minor = 0; minor <= result_format::minor_version; ++minor) {
    line_with("| " + std::to_string(result_format::major_version) + "." + std::to_string(minor) + " | ");
  }
}

}  // namespace
}  // namespace dullcast::storage
