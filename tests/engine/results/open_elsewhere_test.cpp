#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "engine/results/fields.hpp"
#include "engine/results/made_up_run.hpp"
#include "engine/results/write_result.hpp"

namespace dullcast {
namespace {

std::string text_of(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

/// Runs the Python script beside this test, whose netCDF4, xarray, h5dump and UDUNITS know nothing of us.
void open_elsewhere(int cutters, int rows, const RunOutcome& outcome, const std::string& how) {
  const made_up::Folder folder;
  write_result(folder / "run.h5", made_up::scenario(cutters), outcome);
  const std::string command = std::string("/usr/bin/python3 '") + DULLCAST_SOURCE_DIR +
                              "/tests/engine/results/open_elsewhere.py' '" + (folder / "run.h5") + "' " +
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
  RunOutcome outcome = made_up::plain_outcome(3, 0);
  outcome.passages.clear();
  outcome.holes.clear();
  outcome.events.clear();
  outcome.rules.clear();
  outcome.rework_due.reset();
  outcome.beyond_repair.reset();
  open_elsewhere(3, 0, outcome, "empty");
}

template <class Row>
void expect_described(const std::string& readme, const std::string& group,
                      const result_format::Fields<Row>& fields) {
  const std::size_t start = readme.find("### `" + group + "`");
  ASSERT_NE(start, std::string::npos) << "results/README.md does not describe " << group;
  const std::string section = readme.substr(start, readme.find("\n##", start + 1) - start);
  for (const auto& field : fields) {
    const std::string units = *field.units == '\0' ? "text" : field.units;
    EXPECT_NE(section.find(std::string("| `") + field.name + "` | " + units + " |"), std::string::npos)
        << "results/README.md, " << group << ", lacks " << field.name << " in " << units;
  }
}

TEST(OpenElsewhere, TheReadmeDescribesEveryDatasetWithItsUnit) {
  const std::string readme = text_of(std::string(DULLCAST_SOURCE_DIR) + "/results/README.md");
  expect_described(readme, "history", result_format::history_fields());
  expect_described(readme, "layers", result_format::layer_fields());
  expect_described(readme, "holes", result_format::hole_fields());
  expect_described(readme, "events", result_format::event_fields());
  expect_described(readme, "bit", result_format::bit_fields());
  expect_described(readme, "bit", result_format::layout_fields());
  expect_described(readme, "bit", result_format::cutter_fields());
  expect_described(readme, "rework_rules", result_format::rework_rule_fields());
  expect_described(readme, "band", result_format::life_fields());
  expect_described(readme, "outcome", result_format::outcome_fields());
  expect_described(readme, "outcome/end", result_format::condition_fields());
  expect_described(readme, "outcome/rework_due", result_format::milestone_fields());
  expect_described(readme, "outcome/rules", result_format::rule_fields());
  expect_described(readme, "outcome/hottest", result_format::hottest_fields());
}

}  // namespace
}  // namespace dullcast
