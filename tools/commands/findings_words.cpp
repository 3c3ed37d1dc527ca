#include "tools/commands/findings_words.hpp"

#include <cmath>
#include <cstdio>
#include <stdexcept>

#include "engine/input/units.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {
namespace {

/// Whether the draws alone, however they had fallen, could not bound this quantile above or below.
bool too_few_above(const statistics::LifeQuantile& q) {
  return statistics::quantile_ranks(q.lives, q.share, q.confidence).high == 0;
}
bool too_few_below(const statistics::LifeQuantile& q) {
  return statistics::quantile_ranks(q.lives, q.share, q.confidence).low == 0;
}

std::string holes_drilled_words(const analysis::LifeFinding& life) {
  return "not within the " + holes_words(static_cast<int>(life.holes_drilled)) + " drilled";
}

std::string short_percent(double share) {
  return base::show_number(100.0 * share, share < 0.0995 ? 2 : 3);
}

}  // namespace

const char* measure_name(analysis::LifeMeasure measure) {
  switch (measure) {
    case analysis::LifeMeasure::holes:
      return "hole";
    case analysis::LifeMeasure::footage:
      return "footage";
    case analysis::LifeMeasure::rotating_time:
      return "rotating_time";
  }
  throw std::logic_error("measure_name: not a measure");
}

std::string share_name(double share) {
  return "P" + base::show_number(100.0 * share);
}

std::string measure_words(double life, analysis::LifeMeasure measure, base::ShownUnits units) {
  if (measure == analysis::LifeMeasure::holes) return "hole " + base::show_number(life, 6);
  return base::show(life, measure == analysis::LifeMeasure::footage ? base::shown::depth : base::shown::hours,
                    units);
}

std::string quantile_words(const statistics::LifeQuantile& q, const analysis::LifeFinding& life,
                           analysis::LifeMeasure measure, base::ShownUnits units) {
  if (q.lives == 0) return "no draw to say it from";
  const auto words = [&](double value) { return measure_words(value, measure, units); };
  if (!q.reached()) {
    return holes_drilled_words(life) +
           (q.bounded_below()
                ? " (" + base::show_number(100.0 * q.confidence, 4) + " %: not before " + words(q.low) + ")"
                : "; too few draws to say more");
  }
  if (!q.bounded_below() && !q.bounded_above() && too_few_below(q) && too_few_above(q))
    return words(q.length) + ", but too few draws to say";
  const std::string low = q.bounded_below()  ? words(q.low)
                          : too_few_below(q) ? "too few draws to say how soon"
                                             : "the start";
  const std::string high = q.bounded_above()  ? words(q.high)
                           : too_few_above(q) ? "too few draws to say how late"
                                              : holes_drilled_words(life);
  return words(q.length) + " (" + low + " to " + high + ")";
}

std::string probability_words(double share, const statistics::Interval& range) {
  if (std::isnan(share)) return "not known";
  return short_percent(share) + " % (" + short_percent(range.low) + " to " + short_percent(range.high) +
         " %)";
}

std::string column_value_words(const storage::SweepColumn& column, double value, base::ShownUnits units) {
  if (!column.words.empty()) {
    const bool known = value >= 0.0 && value < static_cast<double>(column.words.size());
    return known ? column.words[static_cast<std::size_t>(value)] : "not known";
  }
  // Both units at once would fill the line.
  if (units == base::ShownUnits::both) units = base::ShownUnits::field;
  if (const base::Shown* kind = shown_unit(column.units)) return base::show(value, *kind, units);
  if (column.units == base::dimension::time.si) return base::show(value, base::shown::hours, units);
  if (column.units == base::dimension::angle.si) return angle_words(value);
  // Lengths of a bit's parts, and of holes.
  if (column.units == base::dimension::length.si)
    return base::show(value, value < 0.5 ? base::shown::length : base::shown::depth, units);
  char text[40];
  std::snprintf(text, sizeof text, "%.4g", value);
  return column.units == "1" || column.units.empty() ? text : text + (" " + column.units);
}

std::string settings_words(const storage::SweepTable& table, long point, base::ShownUnits units) {
  std::string words;
  for (const storage::SweepColumn* setting : analysis::settings_of(table)) {
    const double value = setting->values(point * table.draws);
    words += (words.empty() ? "" : ", ") + spoken(setting->name) + " " +
             column_value_words(*setting, value, units);
  }
  return words;
}

std::string outcome_words(const std::string& outcome) {
  if (outcome == "life") return "rotating hours to rework";
  if (outcome == "cost_per_metre") return "cost of hole";
  if (outcome == "hottest_flat") return "hottest flat";
  return spoken(outcome);
}

std::string outcome_difference_words(const std::string& outcome, double difference,
                                     const std::string& currency, base::ShownUnits units) {
  if (units == base::ShownUnits::both) units = base::ShownUnits::field;
  if (std::isnan(difference)) return "not known";
  if (outcome == "life") return base::show(difference, base::shown::hours, units);
  if (outcome == "cost_per_metre") return base::show_money_per_length(difference, currency, units);
  if (outcome == "hottest_flat") return base::show(difference, base::shown::temperature_difference, units);
  return base::show_number(difference);
}

}  // namespace dullcast::commands
