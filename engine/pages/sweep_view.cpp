#include "engine/pages/sweep_view.hpp"

#include <array>
#include <cmath>
#include <string_view>
#include <vector>

#include "engine/base/dimension.hpp"
#include "engine/pages/course_bands.hpp"
#include "engine/pages/json_parts.hpp"
#include "engine/pages/page_words.hpp"
#include "engine/pages/run_words.hpp"
#include "engine/statistics/quantile_bounds.hpp"

namespace dullcast::pages {
namespace {

using nlohmann::json;

/// How a column's values are shown, by its unit.
const char* kind_of(const storage::SweepColumn& column) {
  namespace dimension = base::dimension;
  const std::string_view unit = column.units;
  const auto is = [&](const base::Dimension& kind) { return unit == kind.si || unit == kind.label; };
  if (is(dimension::force)) return "weight";
  if (is(dimension::rotary_speed)) return "rotary_speed";
  if (is(dimension::flow)) return "flow";
  if (is(dimension::temperature)) return "temperature";
  if (is(dimension::speed)) return "progress";
  if (is(dimension::pressure)) return "pressure";
  if (is(dimension::time)) return "hours";
  if (is(dimension::angle)) return "angle";
  // Lengths of a bit's parts, and of holes.
  if (is(dimension::length))
    return column.values.size() > 0 && column.values.maxCoeff() < 0.5 ? "length" : "depth";
  return "number";
}

json settings_of(const storage::SweepTable& table) {
  json all = json::array();
  for (const storage::SweepColumn* column : analysis::settings_of(table)) {
    json values = json::array();
    for (long point = 0; point < table.points; ++point)
      values.push_back(number(column->values(point * table.draws)));
    all.push_back({{"name", spoken(column->name)},
                   {"kind", kind_of(*column)},
                   {"words", column->words.empty() ? json(nullptr) : json(column->words)},
                   {"values", std::move(values)}});
  }
  return all;
}

struct Outcome {
  const char *column, *outcome, *name, *kind;
};
constexpr std::array outcomes{
    Outcome{"due_rotating_time", "life", "rotating time to rework", "hours"},
    Outcome{"cost_per_metre", "cost_per_metre", "cost of hole", "per_length"},
    Outcome{"hottest_flat", "hottest_flat", "hottest flat", "temperature"},
    Outcome{"mean_rate_of_penetration", "progress", "mean progress", "progress"},
    Outcome{"expected_chips", "expected_chips", "expected chips", "number"},
};

/// The middle and eight tenths of the draws of every point.
json bands_of(const storage::SweepTable& table, double confidence) {
  json all = json::array();
  for (const Outcome& outcome : outcomes) {
    const storage::SweepColumn* column = table.find(outcome.column);
    if (column == nullptr) continue;
    json points = json::array();
    for (long point = 0; point < table.points; ++point) {
      const Eigen::ArrayXd draws = column->values.segment(point * table.draws, table.draws);
      const auto at = [&](double share) { return statistics::quantile_bounds(draws, share, confidence); };
      const statistics::QuantileBounds middle = at(0.5);
      points.push_back({{"point", point + 1},
                        {"low", number(at(0.1).value)},
                        {"middle", number(middle.value)},
                        {"high", number(at(0.9).value)},
                        {"draws", middle.draws}});
    }
    all.push_back({{"outcome", outcome.outcome},
                   {"name", outcome.name},
                   {"kind", outcome.kind},
                   {"points", std::move(points)}});
  }
  return all;
}

json life_of(const analysis::Findings& findings) {
  if (!findings.life) return nullptr;
  const analysis::LifeFinding& life = *findings.life;
  json told = {{"point", findings.point ? json(*findings.point + 1) : json(nullptr)},
               {"draws", life.draws},
               {"failed", life.failed},
               {"due", life.due},
               {"finished", life.finished},
               {"finishing", number(life.finishing)},
               {"finishing_low", number(life.finishing_range.low)},
               {"finishing_high", number(life.finishing_range.high)}};
  for (std::size_t m = 0; m < analysis::life_measures.size(); ++m) {
    const char* name = analysis::life_measures[m] == analysis::LifeMeasure::holes     ? "holes"
                       : analysis::life_measures[m] == analysis::LifeMeasure::footage ? "footage"
                                                                                      : "rotating_time";
    json quantiles = json::array();
    for (const statistics::LifeQuantile& one : life.quantiles[m])
      quantiles.push_back({{"share", number(one.share)},
                           {"value", number(one.length)},
                           {"low", one.bounded_below() ? number(one.low) : json(nullptr)},
                           {"high", number(one.high)}});
    told[name] = std::move(quantiles);
  }
  return told;
}

json survival_of(const analysis::Findings& findings) {
  const statistics::LifetimeCurve& curve = findings.curve;
  if (curve.lives == 0) return nullptr;
  json time = json::array(), share = json::array(), low = json::array(), high = json::array();
  for (const statistics::CurveStep& step : curve.steps) {
    time.push_back(number(step.length));
    share.push_back(number(step.survival));
    low.push_back(number(step.low));
    high.push_back(number(step.high));
  }
  return {{"time", std::move(time)},   {"share", std::move(share)},        {"low", std::move(low)},
          {"high", std::move(high)},   {"seen_to", number(curve.seen_to)}, {"lives", curve.lives},
          {"censored", curve.censored}};
}

json factor_of(const analysis::FactorSensitivity& factor) {
  json told = {{"name", factor.told}, {"alone", nullptr}};
  const auto tell = [&](double value, const statistics::Interval& range) {
    told["value"] = number(value);
    told["low"] = number(range.low);
    told["high"] = number(range.high);
  };
  if (factor.effect) tell(factor.effect->mean_size, factor.effect->mean_size_range);
  if (factor.share) {
    tell(factor.share->total, factor.share->total_range);
    told["alone"] = number(factor.share->alone);
  }
  if (factor.rank) tell(factor.rank->value, factor.rank->range);
  return told;
}

json sensitivities_of(const analysis::Findings& findings) {
  json all = json::array();
  for (const analysis::Sensitivity& one : findings.sensitivities) {
    std::string name = spoken(one.outcome), kind = "number";
    for (const Outcome& outcome : outcomes) {
      if (one.outcome != outcome.outcome) continue;
      name = outcome.name;
      kind = outcome.kind;
    }
    // Effects are differences in the outcome; the others are shares and correlations.
    if (one.kind != analysis::SensitivityKind::elementary_effects) kind = "number";
    if (kind == "temperature") kind = "temperature_difference";
    json factors = json::array();
    for (const analysis::FactorSensitivity& factor : one.factors) factors.push_back(factor_of(factor));
    all.push_back({{"outcome", one.outcome},
                   {"name", name},
                   {"how", analysis::sensitivity_name(one.kind)},
                   {"kind", kind},
                   {"used", one.used},
                   {"left_out", one.left_out},
                   {"lives_ended", one.lives_ended},
                   {"censored", one.censored},
                   {"factors", std::move(factors)}});
  }
  return all;
}

json trade_off_of(const analysis::Findings& findings) {
  if (!findings.trade_off) return nullptr;
  const analysis::TradeOff& trade = *findings.trade_off;
  json points = json::array();
  for (const analysis::PointMerit& merit : trade.points) {
    points.push_back({{"point", merit.point + 1},
                      {"draws", merit.draws},
                      {"failed", merit.failed},
                      {"cost", number(merit.cost.mean)},
                      {"cost_half_width", number(analysis::half_width(merit.cost, trade.confidence))},
                      {"hot", number(merit.hot.value)},
                      {"hot_low", number(merit.hot.low)},
                      {"hot_high", number(merit.hot.high)},
                      {"chips", number(merit.chips.mean)},
                      {"finishing", number(merit.finishing)},
                      {"keeping", number(merit.keeping)},
                      {"within", analysis::within_limits_words(merit.within)},
                      {"on_front", merit.on_front},
                      {"like_best", merit.like_best}});
  }
  const json best =
      trade.best ? json(trade.points[static_cast<std::size_t>(*trade.best)].point + 1) : json(nullptr);
  return {{"best", best},
          {"told_apart", trade.told_apart},
          {"limits",
           {{"hottest_flat", number(findings.limits.hottest_flat)},
            {"expected_chips", number(findings.limits.expected_chips)},
            {"hold", number(findings.limits.hold)}}},
          {"points", std::move(points)}};
}

}  // namespace

nlohmann::json sweep_view(const storage::SweepTable& table, const analysis::Findings& findings,
                          const storage::SweepCourses& courses, const RunViewOptions& options) {
  return {{"format", {sweep_view_major, sweep_view_minor}},
          {"name", options.name},
          {"title", table.title},
          {"made_by", options.made_by},
          {"units", units_word(options.units)},
          {"currency", table.currency},
          {"design", spoken(table.design)},
          {"cases", table.cases()},
          {"points", table.points},
          {"draws", table.draws},
          {"failed", findings.failed},
          {"confidence", number(findings.confidence)},
          {"settings", settings_of(table)},
          {"bands", bands_of(table, findings.confidence)},
          {"course", course_bands(courses)},
          {"life", life_of(findings)},
          {"survival", survival_of(findings)},
          {"sensitivities", sensitivities_of(findings)},
          {"trade_off", trade_off_of(findings)},
          {"estimates", estimate_words(options.learned_from)},
          {"cautions", caution_words()}};
}

}  // namespace dullcast::pages
