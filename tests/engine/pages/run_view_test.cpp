#include "engine/pages/run_view.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "engine/analysis/repair_outlook.hpp"
#include "engine/pages/event_sentences.hpp"
#include "engine/pages/history_rows.hpp"
#include "engine/simulation/run.hpp"
#include "models/common/constants.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::pages {
namespace {

using nlohmann::json;

struct Drilled {
  scenario::Scenario scenario;
  simulation::RunOutcome outcome;
};

/// Two holes in which a rule falls due, priced.
const Drilled& worn_out() {
  static const Drilled drilled = [] {
    Drilled made;
    made.scenario = testing::fast_wearing_scenario();
    made.scenario.title = "a title with </script> in it";
    made.scenario.repeat.holes = 2;
    made.scenario.rules.worn_height = 0.2e-3;
    made.scenario.repeat.stop_at = scenario::StopAt::last_hole;
    made.scenario.costs.bit = 1000.0;
    made.scenario.costs.rig_per_second = 0.02;
    made.outcome = simulation::run(made.scenario);
    return made;
  }();
  return drilled;
}

json view_of(const Drilled& drilled, const RunViewOptions& options = {}) {
  return run_view(drilled.scenario, drilled.outcome, {}, options);
}

/// Six figures of it are shown.
void expect_shown(const json& shown, double value) {
  EXPECT_NEAR(shown.get<double>(), value, 1e-5 * std::abs(value));
}

TEST(RunView, RowsAreTheHistoryColumnByColumn) {
  const json view = view_of(worn_out());
  const std::vector<simulation::HistoryRow>& rows = worn_out().outcome.history.rows;
  const json& columns = view.at("rows");
  ASSERT_EQ(columns.at("depth").size(), rows.size());
  EXPECT_EQ(view.at("rows_recorded"), rows.size());
  for (const std::size_t k : {std::size_t{0}, rows.size() / 2, rows.size() - 1}) {
    EXPECT_EQ(columns.at("hole").at(k), rows[k].hole + 1);
    expect_shown(columns.at("depth").at(k), rows[k].depth);
    expect_shown(columns.at("torque").at(k), rows[k].torque);
    const json& cutters = columns.at("cutters");
    for (Eigen::Index i = 0; i < rows[k].worn_height.size(); ++i) {
      const auto cutter = static_cast<std::size_t>(i);
      expect_shown(cutters.at("flat_temperature").at(cutter).at(k), rows[k].flat_temperature(i));
      expect_shown(cutters.at("worn_height").at(cutter).at(k), rows[k].worn_height(i));
    }
  }
}

TEST(RunView, ThinnedRowsKeepEveryPeak) {
  const simulation::History& history = worn_out().outcome.history;
  const std::size_t most = history.rows.size() / 3;
  const std::vector<std::size_t> shown = rows_to_show(history, most);
  EXPECT_LT(shown.size(), history.rows.size());
  const auto hottest = [&](std::size_t k) { return history.rows[k].flat_temperature.maxCoeff(); };
  double peak = 0.0, peak_shown = 0.0;
  for (std::size_t k = 0; k < history.rows.size(); ++k) peak = std::max(peak, hottest(k));
  for (const std::size_t k : shown) peak_shown = std::max(peak_shown, hottest(k));
  EXPECT_EQ(peak_shown, peak);
  EXPECT_EQ(shown.front(), 0u);
  EXPECT_EQ(shown.back(), history.rows.size() - 1);
  EXPECT_TRUE(std::is_sorted(shown.begin(), shown.end()));
  EXPECT_EQ(rows_to_show(history, history.rows.size()).size(), history.rows.size());
}

TEST(RunView, TellsWhenReworkFallsDueByWhichRuleAndCutter) {
  const json view = view_of(worn_out());
  const simulation::Milestone& due = worn_out().outcome.rework_due.value();
  EXPECT_EQ(view.at("rework_due").at("hole"), due.hole + 1);
  expect_shown(view.at("rework_due").at("footage"), due.footage);
  EXPECT_EQ(view.at("rework_due").at("rule"), "worn_height");
  EXPECT_EQ(view.at("rework_due").at("cutters").at(0), due.cutters.at(0) + 1);
  EXPECT_EQ(view.at("due_words"), "hole " + std::to_string(due.hole + 1) + " of 2");
  EXPECT_EQ(view.at("verdict").at("layers").size(), 2u);
}

TEST(RunView, BandHottestAndMarksAreTheRuns) {
  simulation::LifeEnd low;
  low.end = "low";
  low.due = 1;
  low.hole = 0;
  low.footage = 3.5;
  const json view = run_view(worn_out().scenario, worn_out().outcome, {low}, {});
  EXPECT_EQ(view.at("band").at(0).at("words"), "hole 1");
  expect_shown(view.at("band").at(0).at("footage"), 3.5);
  expect_shown(view.at("hottest").at("temperature"), worn_out().outcome.hottest.temperature);
  expect_shown(view.at("marks").at(0).at("temperature"), 350.0 + celsius_zero);
  expect_shown(view.at("marks").at(1).at("temperature"), 750.0 + celsius_zero);
}

TEST(RunView, CostOfTheLastHoleIsThatOfItsLastRow) {
  const json view = view_of(worn_out());
  const json& holes = view.at("costs").at("holes");
  const json& rows = view.at("rows").at("cost_per_metre");
  ASSERT_EQ(holes.size(), 2u);
  // The last hole's last row stands at its end, but for the trip, which both count.
  EXPECT_NEAR(holes.at(1).at("per_metre").get<double>(), rows.at(rows.size() - 1).get<double>(),
              1e-3 * rows.at(rows.size() - 1).get<double>());
  Drilled unpriced = worn_out();
  unpriced.scenario.costs = {};
  EXPECT_TRUE(view_of(unpriced).at("costs").is_null());
  EXPECT_FALSE(view_of(unpriced).at("rows").contains("cost_per_metre"));
}

TEST(RunView, TheBitIsItsLayoutCountedFromOne) {
  const json bit = view_of(worn_out()).at("bit");
  const geometry::BitLayout& layout = worn_out().scenario.bit.layout;
  ASSERT_EQ(bit.at("cutters").size(), static_cast<std::size_t>(layout.count()));
  const json& last = bit.at("cutters").back();
  EXPECT_EQ(last.at("number"), layout.count());
  EXPECT_EQ(last.at("blade"), layout.blade(layout.count() - 1) + 1);
  expect_shown(last.at("radius"), layout.radius(layout.count() - 1));
  EXPECT_EQ(last.at("zone"), "gauge");
  // The profile ends where the outermost outline does: at the wall or a place before it.
  double outermost = 0.0;
  for (std::size_t k = 0; k < bit.at("profile").at("radius").size(); ++k)
    if (!bit.at("profile").at("depth").at(k).is_null())
      outermost = bit.at("profile").at("radius").at(k).get<double>();
  EXPECT_NEAR(outermost, layout.bit_radius, 0.01 * layout.bit_radius);
}

TEST(RunView, EventsHaveTheirSentences) {
  const json events = view_of(worn_out()).at("events");
  const std::vector<simulation::Event>& happened = worn_out().outcome.events;
  ASSERT_EQ(events.size(), happened.size());
  for (std::size_t k = 0; k < events.size(); ++k) {
    if (happened[k].kind == simulation::EventKind::rework_due)
      EXPECT_EQ(events.at(k).at("words"), "Rework is due: a cutter worn 0.00787 in (0.2 mm).");
    else
      EXPECT_EQ(events.at(k).at("words"), event_sentence(happened[k]));
    EXPECT_EQ(events.at(k).at("kind"), simulation::event_name(happened[k].kind));
  }
}

TEST(RunView, WhatItSaysOfItsErrorsStandsInTheReadme) {
  std::ifstream file(std::string(DULLCAST_SOURCE_DIR) + "/README.md");
  std::ostringstream page;
  page << file.rdbuf();
  const json estimates = view_of(worn_out()).at("estimates");
  std::string all;
  for (const json& sentence : estimates) all += sentence.get<std::string>() + "\n";
  for (const char* words :
       {"a factor of three either way until inspected bits calibrate it", "median error 8 % in progress",
        "3 % in weight", "35 laboratory rows", "worst 28 % and 14 %", "within 10 % of 3-D finite elements",
        "598 of 600 flats", "to compare, not to promise",
        "vibration, cuttings that stick, losses into the ground, gels"}) {
    EXPECT_NE(page.str().find(words), std::string::npos) << words;
    EXPECT_NE(all.find(words), std::string::npos) << words;
  }
  RunViewOptions calibrated;
  calibrated.learned_from = 3;
  EXPECT_EQ(view_of(worn_out(), calibrated).at("estimates").at(1),
            "Calibrated: how fast diamond wears rests on 3 inspected bits.");
}

TEST(RunView, TheShopsBillIsThatOfTheBitWhereTheRunStopped) {
  // Rework fell due early in the run; what is billed is the bit at its end, which is worn further.
  Drilled priced = worn_out();
  priced.scenario.costs.rework = 420.0;
  priced.scenario.costs.cutter = 38.0;
  priced.scenario.costs.pocket = 22.0;
  priced.scenario.costs.replacement = 1900.0;
  ASSERT_TRUE(priced.outcome.rework_due.has_value());
  simulation::RunOutcome at_end = priced.outcome;
  at_end.rework_due.reset();
  const condition::RepairPlan plan = analysis::repair_outlook(priced.scenario, at_end).plan;
  ASSERT_GT(plan.cutters, analysis::repair_outlook(priced.scenario, priced.outcome).plan.cutters);
  const json repair = view_of(priced).at("repair");
  EXPECT_EQ(repair.at("cutters"), plan.cutters);
  EXPECT_EQ(repair.at("pockets"), plan.pockets);
  EXPECT_EQ(repair.at("kind"), condition::repair_class_name(plan.kind));
  expect_shown(repair.at("cost"), plan.cost);
}

}  // namespace
}  // namespace dullcast::pages
