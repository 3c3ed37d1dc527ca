#include "tools/commands/findings_report.hpp"

#include <algorithm>
#include <cmath>
#include <ostream>

#include "tools/commands/findings_words.hpp"
#include "tools/commands/report_words.hpp"
#include "tools/commands/sensitivity_report.hpp"

namespace dullcast::commands {
namespace {

constexpr std::size_t rows_told = 12;

std::string counted(long count, const char* what) {
  return std::to_string(count) + " " + what + (count == 1 ? "" : "s");
}

std::string confidence_words(double confidence) {
  return base::show_number(100.0 * confidence, 4) + " %";
}

void tell_failures(const Sheet& sheet, const storage::SweepTable& table, const analysis::Findings& found) {
  if (found.failed == 0) return;
  sheet.heading("\nWhat failed");
  sheet.line("", std::to_string(found.failed) + " of " + counted(table.cases(), "run") +
                     " failed and are left out below" + (found.first_failures.empty() ? "." : "; first:"));
  for (const storage::SweepFailure& failure : found.first_failures)
    sheet.line("case " + std::to_string(failure.case_number), failure.message);
}

std::string life_heading(const storage::SweepTable& table, const analysis::Findings& found,
                         base::ShownUnits units) {
  const std::string point = found.point ? std::to_string(*found.point + 1) : "";
  switch (found.scope) {
    case analysis::LifeScope::best_point:
      return "at the cheapest point, " + point + ": " + settings_words(table, *found.point, units);
    case analysis::LifeScope::asked_point: {
      const std::string settings = settings_words(table, *found.point, units);
      return "at point " + point + (settings.empty() ? "" : ": " + settings);
    }
    case analysis::LifeScope::plain_draws:
      return "over the runs that are plain draws";
    case analysis::LifeScope::all_cases:
      return analysis::settings_of(table).empty() || table.points == 1 ? "over all runs"
                                                                       : "over all settings tried";
    case analysis::LifeScope::none:
      break;
  }
  return "";
}

void tell_life(const Sheet& sheet, const storage::SweepTable& table, const analysis::Findings& found) {
  if (!found.life) {
    sheet.heading("\nWhen rework is due");
    sheet.line("",
               table.design == "elementary_effects"
                   ? "Not told: these runs are laid out to compare factors, not drawn by their chances."
                   : "Not told: no point keeps the limits; --point N tells it for a point of your choice.");
    return;
  }
  const analysis::LifeFinding& life = *found.life;
  sheet.heading("\nWhen rework is due, " + life_heading(table, found, sheet.units));
  sheet.line("draws", counted(life.draws, "run") + ": rework due in " + std::to_string(life.due) +
                          ", not due in " + std::to_string(life.finished + life.ended_otherwise) +
                          (life.failed > 0 ? "; " + std::to_string(life.failed) + " failed" : ""));
  if (life.draws == 0) return;
  for (std::size_t m = 0; m < analysis::life_measures.size(); ++m) {
    for (std::size_t s = 0; s < analysis::life_shares.size(); ++s) {
      const char* by = analysis::life_measures[m] == analysis::LifeMeasure::rotating_time
                           ? "hours"
                           : measure_name(analysis::life_measures[m]);
      const std::string name = share_name(analysis::life_shares[s]) + ", " + by;
      sheet.line(name, quantile_words(life.quantiles[m][s], life, analysis::life_measures[m], sheet.units));
    }
  }
  sheet.line("", "P10: one run in ten is due by then; in brackets where it lies with " +
                     confidence_words(found.confidence) + " confidence from this many draws.");
  const long needed = statistics::draws_for_both_bounds(analysis::life_shares[0], found.confidence);
  if (life.draws < needed)
    sheet.line("", "Too few draws: P10 and P90 need " + std::to_string(needed) + " of them, P50 " +
                       std::to_string(
                           statistics::draws_for_both_bounds(analysis::life_shares[1], found.confidence)) +
                       ".");
  sheet.line("without rework",
             "all holes finished in " + probability_words(life.finishing, life.finishing_range) + " of runs");
  if (life.due < life.draws)
    sheet.line(
        "",
        "Runs without rework are cut off at their last hole. Hours take that for chance, and lean where slow "
        "rock wears a bit otherwise.");
  if (life.ended_otherwise > 0) {
    sheet.line(
        "",
        counted(life.ended_otherwise, "run") +
            " ended before that without rework being due (beyond repair, standstill, a lost blade): their "
            "lives count as longer than they were.");
  }
  if (found.weibull) {
    const statistics::WeibullFit& fit = *found.weibull;
    const char* kind = fit.modulus_range.low > 1.0    ? "wear decides more than chance"
                       : fit.modulus_range.high < 1.0 ? "early failures decide"
                                                      : "not told from pure chance";
    sheet.line("as a Weibull law",
               "modulus " + base::show_number(fit.modulus) + " (" + base::show_number(fit.modulus_range.low) +
                   " to " + base::show_number(fit.modulus_range.high) + "): " + kind + "; 63 % due by " +
                   base::show(fit.scale, base::shown::hours, sheet.units));
  }
}

std::string money_words(const analysis::DrawnMean& cost, double confidence, const storage::SweepTable& table,
                        base::ShownUnits units) {
  if (units == base::ShownUnits::both) units = base::ShownUnits::field;
  std::string mean = base::show_money_per_length(cost.mean, table.currency, units);
  if (!std::isfinite(cost.error)) return mean;
  return mean + " +- " +
         base::show_number(analysis::half_width(cost, confidence) *
                               (units == base::ShownUnits::si ? 1.0 : base::shown::foot),
                           2);
}

void tell_points(const Sheet& sheet, const storage::SweepTable& table, const analysis::Findings& found,
                 const std::vector<const analysis::PointMerit*>& points) {
  const std::vector<int> widths{8, 24, 15, 8, 25, 11};
  sheet.row({"point", "cost", "hottest, P90", "chips", "without rework", "in limits", "settings"}, widths);
  const base::ShownUnits one = sheet.units == base::ShownUnits::both ? base::ShownUnits::field : sheet.units;
  for (std::size_t k = 0; k < points.size() && k < rows_told; ++k) {
    const analysis::PointMerit& merit = *points[k];
    sheet.row(
        {std::to_string(merit.point + 1), money_words(merit.cost, found.confidence, table, sheet.units),
         base::show(merit.hot.value, base::shown::temperature, one), base::show_number(merit.chips.mean, 2),
         probability_words(merit.finishing, merit.finishing_range),
         analysis::within_limits_words(merit.within), settings_words(table, merit.point, sheet.units)},
        widths);
  }
  if (points.size() > rows_told)
    sheet.line("", "and " + std::to_string(points.size() - rows_told) + " more (--csv FOLDER writes all)");
}

std::vector<const analysis::PointMerit*> chosen(const analysis::TradeOff& trade_off,
                                                bool analysis::PointMerit::*which) {
  std::vector<const analysis::PointMerit*> points;
  for (const analysis::PointMerit& merit : trade_off.points) {
    if (merit.*which) points.push_back(&merit);
  }
  std::stable_sort(points.begin(), points.end(),
                   [](const analysis::PointMerit* a, const analysis::PointMerit* b) {
                     return a->cost.mean < b->cost.mean;
                   });
  return points;
}

std::string limits_words(const analysis::TradeOffLimits& limits, base::ShownUnits units) {
  std::string words;
  if (std::isfinite(limits.hottest_flat))
    words = "hottest flat at most " + base::show(limits.hottest_flat, base::shown::temperature, units);
  if (std::isfinite(limits.expected_chips))
    words += (words.empty() ? "" : ", ") + std::string("expected chips at most ") +
             base::show_number(limits.expected_chips);
  if (words.empty()) return "none given (--hottest-flat, --expected-chips)";
  return words + ", together in " + base::show_number(100.0 * limits.hold) + " % of a point's draws or more";
}

void tell_best(const Sheet& sheet, const storage::SweepTable& table, const analysis::Findings& found) {
  const analysis::TradeOff& trade_off = *found.trade_off;
  sheet.heading("\nBest settings by cost");
  sheet.line("limits", limits_words(found.limits, sheet.units));
  if (!trade_off.best) {
    sheet.line("", "No point keeps them by its draws. The front below shows what can be had.");
  } else {
    const std::vector<const analysis::PointMerit*> alike =
        chosen(trade_off, &analysis::PointMerit::like_best);
    const analysis::PointMerit& best = trade_off.points[static_cast<std::size_t>(*trade_off.best)];
    sheet.line("cheapest", "point " + std::to_string(best.point + 1) + ": " +
                               settings_words(table, best.point, sheet.units));
    if (!trade_off.told_apart) {
      sheet.line("", "One run a point: too few draws to say which others may be as cheap.");
      tell_points(sheet, table, found, {&best});
    } else {
      sheet.line(
          "", alike.size() == 1
                  ? "No other point in the limits is as cheap, at " + confidence_words(found.confidence) + "."
                  : "With " + confidence_words(found.confidence) +
                        " confidence the cheapest is among these " + std::to_string(alike.size()) +
                        ", not told apart by " +
                        (trade_off.paired ? "runs with the same draws:" : "these draws:"));
      tell_points(sheet, table, found, alike);
    }
    if (best.within == analysis::WithinLimits::likely)
      sheet.line("", "Too few draws to say surely that point " + std::to_string(best.point + 1) +
                         " keeps the limits: in " + probability_words(best.keeping, best.keeping_range) +
                         " of draws.");
  }
  const std::vector<const analysis::PointMerit*> front = chosen(trade_off, &analysis::PointMerit::on_front);
  sheet.heading("\nWhat they trade: " + counted(static_cast<long>(front.size()), "point") +
                " that no other beats in cost, heat and chips at once");
  tell_points(sheet, table, found, front);
}

}  // namespace

void print_findings(std::ostream& out, const storage::SweepTable& table, const analysis::Findings& findings,
                    base::ShownUnits units) {
  const Sheet sheet{out, units};
  out << "Findings of \"" << table.title << "\": " << counted(table.points, "point") << " with "
      << counted(table.draws, "draw") << " each, " << counted(table.cases(), "run") << " ("
      << spoken(table.design) << ")\n";
  tell_failures(sheet, table, findings);
  if (findings.trade_off) tell_best(sheet, table, findings);
  tell_life(sheet, table, findings);
  tell_sensitivities(sheet, findings, table.currency);
  out << "\nEstimates of a model: the intervals say what the number of draws leaves open, not what the model "
         "or the\n"
         "spreads it was given leave out. Inspect the bit whatever they say; settings stay within what rig, "
         "string\n"
         "and local codes allow.\n";
}

}  // namespace dullcast::commands
