#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "engine/analysis/made_sweep.hpp"
#include "engine/storage/sweep_file.hpp"
#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::has;
using testing::made_column;
using testing::made_sweep;
using testing::MadeCase;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::text_of;

/// Puts a made-up table into a sweep file, as one part.
std::string write(const Scratch& scratch, const storage::SweepTable& table) {
  std::string path = (scratch / "sweep.h5").string();
  storage::SweepHeader header;
  header.table = table;
  header.manifest = header.plan = header.scenario = "made up";
  storage::SweepPart part;
  part.values.resize(table.cases(), static_cast<Eigen::Index>(table.columns.size()));
  for (std::size_t k = 0; k < table.columns.size(); ++k)
    part.values.col(static_cast<Eigen::Index>(k)) = table.columns[k].values;
  part.failures = table.failures;
  storage::write_sweep(path, header, 1, [&](long) { return part; });
  return path;
}

/// Two bits' weights, forty draws of the rock each; the second is dearer. Rework is due in seven of ten.
storage::SweepTable two_weights(long draws = 40) {
  storage::SweepTable table = testing::made_sweep(2, draws, "grid", [](long point, long draw) {
    MadeCase c;
    c.failed = point == 1 && draw == 4;
    c.due = draw % 10 < 7;
    c.holes = c.due ? 2.0 + static_cast<double>(draw % 10) : 12.0;
    c.rotating_time = 36e3 * c.holes;
    c.cost = 40.0 + 15.0 * static_cast<double>(point) + static_cast<double>(draw % 7);
    c.hottest = 550.0 + static_cast<double>(draw % 9) + 20.0 * static_cast<double>(point);
    c.ended_by = c.due ? "rework_due" : "last_hole";
    return c;
  });
  std::vector<double> weight, hardness;
  for (long k = 0; k < table.cases(); ++k) {
    weight.push_back(k < draws ? 26.7e3 : 31.1e3);
    hardness.push_back(static_cast<double>(k % draws % 7));
  }
  const auto first = table.columns.begin();
  table.columns.insert(first,
                       testing::made_column("hardness", "1", storage::ColumnRole::uncertain, hardness));
  table.columns.insert(table.columns.begin(),
                       testing::made_column("weight_on_bit", "N", storage::ColumnRole::setting, weight));
  return table;
}

TEST(FindingsCommand, SaysWhatTheRunsMean) {
  const Scratch scratch;
  const Said said = say("findings " + write(scratch, two_weights()));
  ASSERT_EQ(said.code, 0) << said.err;
  for (const std::string words :
       {"Findings of", "1 of 80 runs failed", "case 45", "this case was made to fail", "Best settings",
        "cheapest", "point 1: weight on bit 6002 lbf", "What they trade", "When rework is due", "P10, hole",
        "P50, footage", "P90, hours", "not within the 12 holes drilled", "without rework",
        "30 % (16.6 to 46.5 %)", "What makes the difference", "hardness", "Estimates"}) {
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  }
}

TEST(FindingsCommand, LimitsChangeTheBestAndCanLeaveNone) {
  const Scratch scratch;
  const std::string sweep = write(scratch, two_weights());
  const Said none = say("findings " + sweep + " --hottest-flat \"200 degC\" --units si");
  ASSERT_EQ(none.code, 0) << none.err;
  EXPECT_TRUE(has(none.out, "No point keeps them")) << none.out;
  EXPECT_TRUE(has(none.out, "hottest flat at most 200 degC, together in 90 %")) << none.out;
  EXPECT_TRUE(has(none.out, "Not told: no point keeps the limits")) << none.out;
  const Said asked = say("findings " + sweep + " --hottest-flat \"200 degC\" --point 2");
  EXPECT_TRUE(has(asked.out, "at point 2: weight on bit 6992 lbf")) << asked.out;
  EXPECT_TRUE(has(asked.out, "39 runs")) << asked.out;
}

/// Walks of two factors in which rework falls due, or not.
storage::SweepTable walks(bool due) {
  std::vector<double> a, b;
  storage::SweepTable table = testing::made_sweep(12, 1, "elementary_effects", [&](long point, long) {
    MadeCase c;
    a.push_back(point % 3 > 0 ? 1.0 : 0.0);
    b.push_back(point % 3 > 1 ? 1.0 : 0.0);
    c.due = due;
    c.rotating_time = 36e3 * (1.0 + a.back() + 0.5 * b.back());
    c.cost = 50.0 + a.back();
    c.ended_by = due ? "rework_due" : "last_hole";
    return c;
  });
  table.columns.push_back(made_column("coordinate_speed", "1", storage::ColumnRole::coordinate, a));
  table.columns.push_back(made_column("coordinate_flow", "1", storage::ColumnRole::coordinate, b));
  return table;
}

TEST(FindingsCommand, RanksNoLifeWhereNoneEnded) {
  const Scratch scratch;
  const std::string folder = (scratch / "tables").string();
  const Said said = say("findings " + write(scratch, walks(false)) + " --csv '" + folder + "'");
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "rotating hours to rework: not ranked")) << said.out;
  EXPECT_TRUE(has(said.out, "No life ended (12 runs without rework due)")) << said.out;
  EXPECT_FALSE(has(text_of(folder + "/sensitivities.csv"), "\nlife,"));
  EXPECT_TRUE(has(text_of(folder + "/sensitivities.csv"), "\ncost_per_metre,"));
  EXPECT_TRUE(has(text_of(folder + "/about.csv"), "\nlife_ranked,0")) << text_of(folder + "/about.csv");
  EXPECT_TRUE(has(text_of(folder + "/about.csv"), "\nlives_not_ended,12"));
  if (std::system("/usr/bin/python3 -c 'import matplotlib' >/dev/null 2>&1") == 0) {
    const std::string picture = (scratch / "findings.png").string();
    const Said drawn =
        testing::say_to(std::string(DULLCAST_SOURCE_DIR) + "/tools/draw-findings", folder + " " + picture);
    EXPECT_EQ(drawn.code, 0) << drawn.err;
  }
  const Said ended = say("findings " + write(scratch, walks(true)) + " --replace --csv '" + folder + "'");
  EXPECT_TRUE(has(ended.out, "rotating hours to rework: 4 walks")) << ended.out;
  EXPECT_TRUE(has(text_of(folder + "/sensitivities.csv"), "\nlife,"));
  EXPECT_TRUE(has(text_of(folder + "/about.csv"), "\nlife_ranked,1"));
}

TEST(FindingsCommand, SaysWhereTheDrawsAreTooFew) {
  const Scratch scratch;
  const Said said = say("findings " + write(scratch, two_weights(5)));
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "too few draws to say")) << said.out;
}

TEST(FindingsCommand, WritesEveryTable) {
  const Scratch scratch;
  const std::string folder = (scratch / "tables").string();
  const Said said = say("findings " + write(scratch, two_weights()) + " --csv '" + folder + "'");
  ASSERT_EQ(said.code, 0) << said.err;
  for (const std::string name : {"about", "lives", "finishing", "lifetime_curve", "weibull", "points",
                                 "life_by_point", "sensitivities", "failures"}) {
    std::istringstream lines(text_of(folder + "/" + name + ".csv"));
    std::string line;
    ASSERT_TRUE(std::getline(lines, line)) << name;
    // No word of this sweep holds a comma, so that commas count cells.
    const auto columns = std::count(line.begin(), line.end(), ',');
    int rows = 0;
    for (; std::getline(lines, line); ++rows)
      EXPECT_EQ(std::count(line.begin(), line.end(), ','), columns) << line;
    EXPECT_GE(rows, 1) << name;
  }
  const std::string points = text_of(folder + "/points.csv");
  EXPECT_TRUE(has(points, "point,weight_on_bit [N],draws,failed")) << points;
  EXPECT_TRUE(has(points, "\n1,26700,40,0,")) << points;
  EXPECT_TRUE(has(points, "\n2,31100,39,1,")) << points;
  EXPECT_TRUE(has(text_of(folder + "/lives.csv"), "hole,1,0.9,inf,")) << "P90 is not reached";
}

TEST(FindingsCommand, ItsTablesMakeAPicture) {
  if (std::system("/usr/bin/python3 -c 'import matplotlib' >/dev/null 2>&1") != 0)
    GTEST_SKIP() << "no matplotlib";
  const Scratch scratch;
  const std::string folder = (scratch / "tables").string(), picture = (scratch / "findings.png").string();
  ASSERT_EQ(say("findings " + write(scratch, two_weights()) + " --csv " + folder).code, 0);
  const std::string tool = std::string(DULLCAST_SOURCE_DIR) + "/tools/draw-findings";
  const Said drawn = testing::say_to(tool, folder + " " + picture);
  ASSERT_EQ(drawn.code, 0) << drawn.err;
  EXPECT_EQ(text_of(picture).substr(1, 3), "PNG");
  const Said nothing = testing::say_to(tool, (scratch / "elsewhere").string() + " " + picture + " --replace");
  EXPECT_NE(nothing.code, 0);
  EXPECT_TRUE(has(nothing.err, "about.csv: there is no such file")) << nothing.err;
}

TEST(FindingsCommand, RefusesWhatItCannotDo) {
  const Scratch scratch;
  const std::string sweep = write(scratch, two_weights());
  EXPECT_EQ(say("findings").code, 2);
  EXPECT_EQ(say("findings " + sweep + " --confidence 95").code, 2);
  EXPECT_EQ(say("findings " + sweep + " --limits-hold 0").code, 2);
  EXPECT_EQ(say("findings " + sweep + " --expected-chips -1").code, 2);
  EXPECT_EQ(say("findings " + sweep + " --units feet").code, 2);
  const Said hot = say("findings " + sweep + " --hottest-flat 350");
  EXPECT_EQ(hot.code, 2);
  EXPECT_TRUE(has(hot.err, "--hottest-flat")) << hot.err;
  const Said point = say("findings " + sweep + " --point 3");
  EXPECT_EQ(point.code, 3);
  EXPECT_TRUE(has(point.err, "points 1 to 2, not 3")) << point.err;
  EXPECT_EQ(say("findings " + (scratch / "nowhere.h5").string()).code, 4);
  EXPECT_EQ(say("findings " + sweep + " --csv '" + sweep + "'").code, 4) << "a file is no folder";
}

}  // namespace
}  // namespace dullcast::commands
