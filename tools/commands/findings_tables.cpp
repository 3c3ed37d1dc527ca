#include "tools/commands/findings_tables.hpp"

#include <cstdio>
#include <filesystem>
#include <limits>
#include <sstream>

#include "engine/base/file_error.hpp"
#include "engine/base/output_place.hpp"
#include "engine/base/plain_text.hpp"
#include "tools/commands/findings_words.hpp"

namespace dullcast::commands {
namespace {

constexpr double not_a_number = std::numeric_limits<double>::quiet_NaN();

/// One file of lines of cells.
class Table {
 public:
  Table(const std::string& folder, const std::string& name, const std::string& heading)
      : path_((std::filesystem::path(folder) / name).string()) {
    file_ << heading;
  }
  Table& line() {
    file_ << "\n";
    first_ = true;
    return *this;
  }
  Table& word(const std::string& text) { return put(base::csv_cell(text)); }
  Table& count(long value) { return put(std::to_string(value)); }
  Table& number(double value) {
    char text[40];
    std::snprintf(text, sizeof text, "%.9g", value);
    return put(text);
  }
  Table& range(const statistics::Interval& interval) { return number(interval.low).number(interval.high); }
  void finish() {
    file_ << "\n";
    base::write_text(path_, file_.str());
  }

 private:
  Table& put(const std::string& cell) {
    file_ << (first_ ? "" : ",") << cell;
    first_ = false;
    return *this;
  }
  std::string path_;
  std::ostringstream file_;
  bool first_ = true;
};

const char* scope_name(analysis::LifeScope scope) {
  switch (scope) {
    case analysis::LifeScope::none:
      return "none";
    case analysis::LifeScope::all_cases:
      return "all_cases";
    case analysis::LifeScope::plain_draws:
      return "plain_draws";
    case analysis::LifeScope::best_point:
      return "best_point";
    case analysis::LifeScope::asked_point:
      return "asked_point";
  }
  return "";
}

void write_about(const std::string& folder, const storage::SweepTable& table,
                 const analysis::Findings& found) {
  Table about(folder, "about.csv", "name,value");
  about.line().word("title").word(table.title);
  about.line().word("design").word(table.design);
  about.line().word("currency").word(table.currency);
  about.line().word("points").count(table.points);
  about.line().word("draws").count(table.draws);
  about.line().word("failed").count(found.failed);
  about.line().word("confidence").number(found.confidence);
  about.line().word("limit_hottest_flat_K").number(found.limits.hottest_flat);
  about.line().word("limit_expected_chips").number(found.limits.expected_chips);
  about.line().word("limits_hold").number(found.limits.hold);
  about.line().word("scope").word(scope_name(found.scope));
  if (found.point) about.line().word("point").count(*found.point + 1);
  if (found.life) {
    about.line().word("seen_to_s").number(found.curve.seen_to);
    about.line().word("holes_drilled").number(found.life->holes_drilled);
  }
  if (found.weibull) {
    about.line().word("weibull_modulus").number(found.weibull->modulus);
    about.line().word("weibull_modulus_low").number(found.weibull->modulus_range.low);
    about.line().word("weibull_modulus_high").number(found.weibull->modulus_range.high);
    about.line().word("weibull_scale_s").number(found.weibull->scale);
    about.line().word("weibull_scale_low_s").number(found.weibull->scale_range.low);
    about.line().word("weibull_scale_high_s").number(found.weibull->scale_range.high);
  }
  for (const analysis::Sensitivity& s : found.sensitivities) {
    if (s.outcome != "life") continue;
    about.line().word("lives_ended").count(s.lives_ended);
    about.line().word("lives_not_ended").count(s.censored);
    about.line().word("life_ranked").count(s.factors.empty() ? 0 : 1);
  }
  about.finish();
}

const char* measure_unit(analysis::LifeMeasure measure) {
  return measure == analysis::LifeMeasure::holes     ? "1"
         : measure == analysis::LifeMeasure::footage ? "m"
                                                     : "s";
}

void put_quantiles(Table& lives, const analysis::LifeFinding& life, long point) {
  for (std::size_t m = 0; m < analysis::life_measures.size(); ++m) {
    for (const statistics::LifeQuantile& q : life.quantiles[m]) {
      lives.line();
      if (point > 0) lives.count(point);
      lives.word(measure_name(analysis::life_measures[m]))
          .word(measure_unit(analysis::life_measures[m]))
          .number(q.share);
      lives.number(q.length).number(q.low).number(q.high).count(life.draws).count(life.due);
    }
  }
}

void write_life(const std::string& folder, const analysis::Findings& found) {
  const analysis::LifeFinding& life = *found.life;
  Table lives(folder, "lives.csv", "measure,unit,share,value,low,high,draws,due");
  put_quantiles(lives, life, 0);
  lives.finish();
  Table finishing(folder, "finishing.csv", "draws,failed,due,finished,ended_otherwise,chance,low,high");
  finishing.line().count(life.draws).count(life.failed).count(life.due).count(life.finished);
  finishing.count(life.ended_otherwise).number(life.finishing).range(life.finishing_range).finish();
  Table curve(folder, "lifetime_curve.csv", "rotating_time_s,at_risk,due,survival,variance,low,high");
  for (const statistics::CurveStep& step : found.curve.steps) {
    curve.line().number(step.length).count(step.at_risk).count(step.ended).number(step.survival);
    curve.number(step.variance).number(step.low).number(step.high);
  }
  curve.finish();
  Table weibull(folder, "weibull.csv", "rotating_time_s,share");
  for (const statistics::WeibullPoint& point : found.weibull_points)
    weibull.line().number(point.length).number(point.share);
  weibull.finish();
}

void write_points(const std::string& folder, const storage::SweepTable& table,
                  const analysis::TradeOff& trade_off) {
  const std::vector<const storage::SweepColumn*> settings = analysis::settings_of(table);
  std::string heading = "point";
  for (const storage::SweepColumn* setting : settings)
    heading += "," + base::csv_cell(setting->name + " [" + setting->units + "]");
  Table points(
      folder, "points.csv",
      heading +
          ",draws,failed,cost_per_metre,cost_error,cost_half_width,over_best,over_best_error,hottest_p90_K,"
          "hottest_low_K,"
          "hottest_high_K,expected_chips,chips_error,without_rework,without_rework_low,without_rework_high,"
          "keeping_limits,keeping_low,keeping_high,within_limits,best,like_best,on_front");
  for (const analysis::PointMerit& merit : trade_off.points) {
    points.line().count(merit.point + 1);
    for (const storage::SweepColumn* setting : settings) {
      const double value = setting->values(merit.point * table.draws);
      if (setting->words.empty()) {
        points.number(value);
      } else {
        points.word(column_value_words(*setting, value, base::ShownUnits::si));
      }
    }
    points.count(merit.draws).count(merit.failed).number(merit.cost.mean).number(merit.cost.error);
    points.number(analysis::half_width(merit.cost, trade_off.confidence));
    points.number(merit.over_best.mean).number(merit.over_best.error).number(merit.hot.value);
    points.number(merit.hot.low).number(merit.hot.high).number(merit.chips.mean).number(merit.chips.error);
    points.number(merit.finishing)
        .range(merit.finishing_range)
        .number(merit.keeping)
        .range(merit.keeping_range);
    points.word(analysis::within_limits_words(merit.within)).count(trade_off.best == merit.point ? 1 : 0);
    points.count(merit.like_best ? 1 : 0).count(merit.on_front ? 1 : 0);
  }
  points.finish();
}

void write_sensitivities(const std::string& folder, const std::vector<analysis::Sensitivity>& all) {
  Table table(
      folder, "sensitivities.csv",
      "outcome,unit,kind,used,left_out,factor,value,low,high,mean,spread,alone,alone_low,alone_high,told");
  for (const analysis::Sensitivity& s : all) {
    for (const analysis::FactorSensitivity& factor : s.factors) {
      table.line()
          .word(s.outcome)
          .word(s.units)
          .word(analysis::sensitivity_name(s.kind))
          .count(s.used)
          .count(s.left_out);
      table.word(factor.name);
      if (factor.effect) {
        table.number(factor.effect->mean_size).range(factor.effect->mean_size_range);
        table.number(factor.effect->mean).number(factor.effect->spread);
      } else if (factor.share) {
        table.number(factor.share->total)
            .range(factor.share->total_range)
            .number(not_a_number)
            .number(not_a_number);
      } else {
        table.number(factor.rank->value).range(factor.rank->range).number(not_a_number).number(not_a_number);
      }
      table.number(factor.share ? factor.share->alone : not_a_number);
      table.range(factor.share ? factor.share->alone_range : statistics::Interval{});
      table.word(factor.told);
    }
  }
  table.finish();
}

}  // namespace

std::vector<std::string> findings_files() {
  return {"about.csv",  "lives.csv",         "finishing.csv",     "lifetime_curve.csv", "weibull.csv",
          "points.csv", "life_by_point.csv", "sensitivities.csv", "failures.csv"};
}

void write_findings(const std::string& folder, const storage::SweepTable& table,
                    const analysis::Findings& found) {
  std::error_code trouble;
  std::filesystem::create_directories(folder, trouble);
  if (!std::filesystem::is_directory(folder))
    throw base::FileError(folder, "is no folder and cannot be made one");
  // What an earlier sweep left there must not pass for this one's.
  for (const std::string& name : findings_files())
    std::filesystem::remove(std::filesystem::path(folder) / name, trouble);
  write_about(folder, table, found);
  if (found.life) write_life(folder, found);
  if (found.trade_off) write_points(folder, table, *found.trade_off);
  if (!found.life_by_point.empty()) {
    Table lives(folder, "life_by_point.csv", "point,measure,unit,share,value,low,high,draws,due");
    for (std::size_t k = 0; k < found.life_by_point.size(); ++k)
      put_quantiles(lives, found.life_by_point[k], static_cast<long>(k) + 1);
    lives.finish();
  }
  if (!found.sensitivities.empty()) write_sensitivities(folder, found.sensitivities);
  if (!table.failures.empty()) {
    Table failures(folder, "failures.csv", "case,message");
    for (const storage::SweepFailure& failure : table.failures)
      failures.line().count(failure.case_number).word(failure.message);
    failures.finish();
  }
}

}  // namespace dullcast::commands
