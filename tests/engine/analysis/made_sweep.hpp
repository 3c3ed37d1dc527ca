#pragma once

#include <cmath>
#include <functional>
#include <limits>
#include <string>
#include <vector>

#include "engine/storage/sweep_table.hpp"

namespace dullcast::testing {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

/// What a made-up case came to.
struct MadeCase {
  bool failed = false;
  bool due = false;
  double holes = 10.0;          // finished, or the number of the hole that rework fell due in
  double rotating_time = 36e3;  // s
  double cost = 100.0;          // money/m
  double hottest = 500.0;       // K
  double chips = 0.1;
  std::string ended_by = "last_hole";
};

inline storage::SweepColumn made_column(const std::string& name, const std::string& units,
                                        storage::ColumnRole role, const std::vector<double>& values) {
  storage::SweepColumn column{name, units, name, role, {}, {}};
  column.values = Eigen::Map<const Eigen::ArrayXd>(values.data(), static_cast<Eigen::Index>(values.size()));
  return column;
}

/// A sweep of which only the outcomes that findings look at are filled in; holes are 20 m deep.
inline storage::SweepTable made_sweep(long points, long draws, const std::string& design,
                                      const std::function<MadeCase(long point, long draw)>& make) {
  storage::SweepTable table;
  table.title = "a made-up sweep";
  table.currency = "$";
  table.design = design;
  table.points = points;
  table.draws = draws;
  std::vector<double> failed, ended_by, holes, rework_due, due_hole, due_footage, due_time, footage, time,
      cost, hot, chips;
  const std::vector<std::string> words{"last_hole", "rework_due", "beyond_repair", "stopped_drilling"};
  for (long k = 0; k < points * draws; ++k) {
    const MadeCase c = make(k / draws, k % draws);
    const auto put = [&](std::vector<double>& column, double value, bool holds = true) {
      column.push_back(c.failed || !holds ? not_a_number : value);
    };
    failed.push_back(c.failed ? 1.0 : 0.0);
    double word = 0.0;
    while (words.at(static_cast<std::size_t>(word)) != c.ended_by) word += 1.0;
    put(ended_by, word);
    put(holes, c.due ? c.holes - 1.0 : c.holes);
    put(rework_due, c.due ? 1.0 : 0.0);
    put(due_hole, c.holes, c.due);
    put(due_footage, 20.0 * c.holes, c.due);
    put(due_time, c.rotating_time, c.due);
    put(footage, 20.0 * c.holes);
    put(time, c.rotating_time);
    put(cost, c.cost);
    put(hot, c.hottest);
    put(chips, c.chips);
    if (c.failed) table.failures.push_back({k + 1, "this case was made to fail"});
  }
  const auto add = [&](const std::string& name, const std::string& units, const std::vector<double>& values) {
    table.columns.push_back(made_column(name, units, storage::ColumnRole::outcome, values));
  };
  add("failed", "1", failed);
  add("ended_by", "1", ended_by);
  table.columns.back().words = words;
  add("holes_finished", "1", holes);
  add("rework_due", "1", rework_due);
  add("due_hole", "1", due_hole);
  add("due_footage", "m", due_footage);
  add("due_rotating_time", "s", due_time);
  add("footage", "m", footage);
  add("rotating_time", "s", time);
  add("cost_per_metre", "$/m", cost);
  add("hottest_flat", "K", hot);
  add("expected_chips", "1", chips);
  return table;
}

}  // namespace dullcast::testing
