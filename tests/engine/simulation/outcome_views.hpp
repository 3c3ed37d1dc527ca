#pragma once

#include <algorithm>
#include <cmath>
#include <iterator>
#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

/// Ways to look at what a run left behind, and mishaps to make it with.
namespace dullcast::testing {

using namespace simulation;  // the room that is tested

inline std::vector<Event> events_of(const RunOutcome& outcome, EventKind kind) {
  std::vector<Event> found;
  std::copy_if(outcome.events.begin(), outcome.events.end(), std::back_inserter(found),
               [kind](const Event& event) { return event.kind == kind; });
  return found;
}

/// The only event of its kind; fails loudly (throws) where there is none.
inline Event first_event(const RunOutcome& outcome, EventKind kind) {
  return events_of(outcome, kind).at(0);
}

/// Share used of a rule; NaN where the rule was not weighed.
inline double used(const RunOutcome& outcome, const std::string& rule) {
  for (const RuleUse& use : outcome.rules)
    if (use.rule == rule) return use.used;
  return std::nan("");
}

/// Rows from one time to another, both ends included.
inline std::vector<HistoryRow> rows_between(const RunOutcome& outcome, double from, double to) {
  std::vector<HistoryRow> found;
  std::copy_if(outcome.history.rows.begin(), outcome.history.rows.end(), std::back_inserter(found),
               [=](const HistoryRow& row) { return row.time >= from && row.time <= to; });
  return found;
}

inline double hottest_table(const HistoryRow& row) {
  return row.table_temperature.maxCoeff();
}

/// The pump sends `flow` (m3/s) from a depth (m) for a time (s).
inline scenario::Upset flow_falls(double from, double lasts, double flow) {
  scenario::Upset upset;
  upset.from = from;
  upset.lasts = lasts;
  upset.flow = flow;
  return upset;
}

}  // namespace dullcast::testing
