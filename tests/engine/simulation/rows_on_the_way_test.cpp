// Which rows a run keeps: enough to show how it heats, no more than a file should hold, and none that a
// picture would join into a slope that never was.

#include "engine/simulation/rows_on_the_way.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "engine/simulation/run.hpp"
#include "support/short_scenario.hpp"

namespace dullcast::simulation {
namespace {

double hottest(const HistoryRow& row) {
  return row.flat_temperature.maxCoeff();
}

/// Rows of one layer of the first hole.
std::vector<HistoryRow> rows_in(const RunOutcome& outcome, int layer) {
  std::vector<HistoryRow> rows;
  for (const HistoryRow& row : outcome.history.rows) {
    if (row.hole == 0 && row.layer == layer) rows.push_back(row);
  }
  return rows;
}

scenario::Scenario long_layers(scenario::Warming warming) {
  scenario::Scenario s = testing::short_scenario();
  s.repeat.connection_time = 0.0;
  for (scenario::Layer& layer : s.column.layers) layer.top *= 10.0, layer.bottom *= 10.0;
  s.plan[0].to *= 10.0;
  s.stepping.warming = warming;
  return s;
}

TEST(RowsOnTheWay, ChosenRowsAreDensestAfterAChangeAndShowTheHeating) {
  const scenario::Scenario s = long_layers(scenario::Warming::followed);
  ASSERT_FALSE(s.stepping.output_every) << "the program chooses unless told otherwise";
  for (const int layer : {0, 1}) {
    const auto rows = rows_in(run(s), layer);
    ASSERT_GT(rows.size(), 15u);
    const double begins = rows.front().time, lasts = rows.back().time - begins;
    double most = 0.0, least = hottest(rows.front());
    for (const HistoryRow& row : rows) {
      most = std::max(most, hottest(row));
      least = std::min(least, hottest(row));
    }
    const double range = most - least;
    ASSERT_GT(range, 5.0);
    EXPECT_GT(std::count_if(rows.begin(), rows.end(),
                            [&](const HistoryRow& row) { return row.time - begins < 0.01 * lasts; }),
              6);
    // Cold diamond takes a third of its rise before the first row, 0.02 s in; layer ends alone would have it
    // all in one slope.
    for (std::size_t k = 1; k < rows.size(); ++k)
      EXPECT_LT(std::abs(hottest(rows[k]) - hottest(rows[k - 1])), 0.4 * range) << layer << " " << k;
  }
}

TEST(RowsOnTheWay, AJumpToTheBalanceIsTwoRowsAtOneInstant) {
  for (const std::optional<double> every : {std::optional<double>(), {4.0}}) {
    scenario::Scenario s = long_layers(scenario::Warming::where_it_matters);
    s.stepping.relative_tolerance = 1e-2;
    s.stepping.output_every = every;
    const RunOutcome outcome = run(s);
    for (const int layer : {0, 1}) {
      const auto rows = rows_in(outcome, layer);
      ASSERT_GT(rows.size(), 4u);
      ASSERT_EQ(rows[0].time, rows[1].time) << layer;
      EXPECT_EQ(rows[0].depth, rows[1].depth);
      EXPECT_GT(std::abs(hottest(rows[1]) - hottest(rows[0])), 1.0) << "what warming would have shown";
      // From there on nothing is a slope: wear moves the balance little in some metres.
      for (std::size_t k = 2; k < rows.size(); ++k)
        EXPECT_NEAR(hottest(rows[k]), hottest(rows[1]), 0.1 * (hottest(rows[1]) - s.inlet_temperature));
    }
  }
}

TEST(RowsOnTheWay, LayerEndsOnlyIsLayerEndsOnly) {
  scenario::Scenario s = long_layers(scenario::Warming::where_it_matters);
  s.stepping.output_every = 0.0;
  EXPECT_EQ(run(s).history.rows.size(), 4u);
}

TEST(RowsOnTheWay, ChosenRowsAreBoundedInALayerAndInARun) {
  for (const auto warming : {scenario::Warming::followed, scenario::Warming::where_it_matters}) {
    scenario::Scenario s = long_layers(warming);
    s.repeat.connection_time = 120.0;
    EXPECT_LE(run(s).history.rows.size(), 2u * (2u + most_chosen_rows));
  }
  scenario::Scenario many = testing::even_hole(0.02);
  many.stepping.relative_tolerance = 1e-2;
  many.repeat.holes = 500;
  const std::size_t rows = run(many).history.rows.size();
  EXPECT_GT(rows, 2u * 500u);
  EXPECT_LE(rows, 2u * 500u + most_chosen_rows_in_all);
}

}  // namespace
}  // namespace dullcast::simulation
