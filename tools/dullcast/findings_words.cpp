#include "tools/dullcast/findings_words.hpp"

#include <cmath>
#include <cstdio>
#include <map>
#include <stdexcept>

#include "engine/scenario/units.hpp"
#include "tools/dullcast/report_words.hpp"

namespace dullcast {
namespace {

/// Columns' units that are shown in the trade's own.
const std::map<std::string, const Shown*>& shown_units() {
  static const std::map<std::string, const Shown*> known{{dimension::force.si, &shown::weight},
                                                         {dimension::rotary_speed.si, &shown::rotary_speed},
                                                         {dimension::flow.si, &shown::flow},
                                                         {dimension::pressure.si, &shown::pressure},
                                                         {dimension::temperature.si, &shown::temperature},
                                                         {dimension::speed.si, &shown::progress},
                                                         {dimension::time.si, &shown::hours}};
  return known;
}

/// Whether the draws alone, however they had fallen, could not bound this quantile above or below.
bool too_few_above(const LifeQuantile& q) {
  return quantile_ranks(q.lives, q.share, q.confidence).high == 0;
}
bool too_few_below(const LifeQuantile& q) {
  return quantile_ranks(q.lives, q.share, q.confidence).low == 0;
}

std::string holes_drilled_words(const LifeFinding& life) {
  return "not within the " + holes_words(static_cast<int>(life.holes_drilled)) + " drilled";
}

std::string short_percent(double share) {
  return show_number(100.0 * share, share < 0.0995 ? 2 : 3);
}

}  // namespace

const char* measure_name(LifeMeasure measure) {
  switch (measure) {
    case LifeMeasure::holes:
      return "hole";
    case LifeMeasure::footage:
      return "footage";
    case LifeMeasure::rotating_time:
      return "rotating_time";
  }
  throw std::logic_error("measure_name: not a measure");
}

std::string share_name(double share) {
  return "P" + show_number(100.0 * share);
}

std::string measure_words(double life, LifeMeasure measure, ShownUnits units) {
  if (measure == LifeMeasure::holes) return "hole " + show_number(life, 6);
  return show(life, measure == LifeMeasure::footage ? shown::depth : shown::hours, units);
}

std::string quantile_words(const LifeQuantile& q, const LifeFinding& life, LifeMeasure measure,
                           ShownUnits units) {
  if (q.lives == 0) return "no draw to say it from";
  const auto words = [&](double value) { return measure_words(value, measure, units); };
  if (!q.reached()) {
    return holes_drilled_words(life) + (q.bounded_below() ? " (" + show_number(100.0 * q.confidence, 4) +
                                                                " %: not before " + words(q.low) + ")"
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

std::string chance_words(double share, const Interval& range) {
  if (std::isnan(share)) return "not known";
  return short_percent(share) + " % (" + short_percent(range.low) + " to " + short_percent(range.high) +
         " %)";
}

std::string column_value_words(const SweepColumn& column, double value, ShownUnits units) {
  if (!column.words.empty()) {
    const bool known = value >= 0.0 && value < static_cast<double>(column.words.size());
    return known ? column.words[static_cast<std::size_t>(value)] : "not known";
  }
  // Both units at once would fill the line.
  if (units == ShownUnits::both) units = ShownUnits::field;
  const auto found = shown_units().find(column.units);
  if (found != shown_units().end()) return show(value, *found->second, units);
  if (column.units == dimension::angle.si)
    return show_number(value * 180.0 / 3.14159265358979323846) + " deg";
  // Lengths of a bit's parts, and of holes.
  if (column.units == dimension::length.si)
    return show(value, value < 0.5 ? shown::length : shown::depth, units);
  char text[40];
  std::snprintf(text, sizeof text, "%.4g", value);
  return column.units == "1" || column.units.empty() ? text : text + (" " + column.units);
}

std::string settings_words(const SweepTable& table, long point, ShownUnits units) {
  std::string words;
  for (const SweepColumn* setting : settings_of(table)) {
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
                                     const std::string& currency, ShownUnits units) {
  if (units == ShownUnits::both) units = ShownUnits::field;
  if (std::isnan(difference)) return "not known";
  if (outcome == "life") return show(difference, shown::hours, units);
  if (outcome == "cost_per_metre") return show_money_per_length(difference, currency, units);
  if (outcome == "hottest_flat") return show(difference, shown::temperature_difference, units);
  return show_number(difference);
}

}  // namespace dullcast
