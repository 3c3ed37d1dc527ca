#include "tools/commands/band_report.hpp"

#include <algorithm>
#include <cmath>
#include <iomanip>
#include <utility>

#include "engine/analysis/drawn_band.hpp"

namespace dullcast::commands {
namespace {

constexpr std::size_t causes_told = 3;
constexpr double least_share_told = 0.02;

bool stopped(const simulation::RunOutcome& run) {
  return !run.rework_due && (run.ended_by == simulation::EndedBy::stopped_drilling ||
                             run.ended_by == simulation::EndedBy::blade_sheared);
}

std::string hole_of(const simulation::RunOutcome& run) {
  if (run.rework_due) return std::to_string(run.rework_due->hole + 1);
  if (stopped(run)) return "stops in " + std::to_string(run.holes_finished + 1);
  return "not in " + std::to_string(run.holes_finished);
}

std::string footage_of(const simulation::RunOutcome& run, base::ShownUnits units) {
  if (run.rework_due) return base::show(run.rework_due->footage, base::shown::depth, units);
  return (stopped(run) ? "" : "over ") + base::show(run.footage, base::shown::depth, units);
}

std::string hours_of(const simulation::RunOutcome& run) {
  if (run.rework_due)
    return base::show(run.rework_due->rotating_time, base::shown::hours, base::ShownUnits::si);
  return (stopped(run) ? "" : "over ") +
         base::show(run.rotating_time, base::shown::hours, base::ShownUnits::si);
}

/// What the band is due to, the greatest share first: numbers, and what the inspected bit leaves open.
std::string causes_words(const analysis::Forecast& forecast) {
  std::vector<std::pair<double, std::string>> causes;
  for (const analysis::NumberEffect& effect : forecast.effects)
    causes.emplace_back(effect.share, spoken(effect.name));
  causes.emplace_back(forecast.inspection_share, "what reading one bit of one field leaves open");
  std::stable_sort(causes.begin(), causes.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::string words;
  for (std::size_t k = 0; k < std::min(causes_told, causes.size()); ++k) {
    if (causes[k].first < least_share_told) break;
    words += (words.empty() ? "" : ", ") + causes[k].second + " " +
             base::show_number(std::round(100.0 * causes[k].first), 2) + " %";
  }
  return words;
}

void tell_draws(const Sheet& sheet, const analysis::Forecast& forecast) {
  const long seed = forecast.central_scenario.random_events.seed;
  const int all = forecast.draws + forecast.draws_failed;
  sheet.out << "  Of " << forecast.draws << " draws of chance (seeds " << seed << " to " << seed + all - 1
            << ") and of the library's numbers together, one in ten is due by\n"
               "  low, half by middle, one in ten after high";
  if (forecast.draws_without_rework > 0)
    sheet.out << "; in " << forecast.draws_without_rework << " rework did not fall due";
  sheet.out << ".\n  All else on this page is the one draw of seed " << seed << " at central numbers.\n";
  if (forecast.draws_failed > 0)
    sheet.out << "  " << forecast.draws_failed
              << (forecast.draws_failed == 1 ? " more draw could not be run and is left out ("
                                             : " more draws could not be run and are left out; the first (")
              << forecast.first_failed_draw << ").\n";
}

void tell_numbers(const Sheet& sheet, const analysis::Forecast& forecast) {
  const double low = analysis::life_drilled(forecast.severe),
               central = analysis::life_drilled(forecast.central),
               high = analysis::life_drilled(forecast.mild);
  if (low <= central && central <= high) {
    sheet.out << "  About one case in ten is worse than low, one in ten better than high.\n";
  } else {
    sheet.out << "  Low is the case of much wear in one hole, high that of little; whole lives do not follow "
                 "here, so do not\n  read low and high as chances.\n";
  }
  const std::string causes = causes_words(forecast);
  if (!causes.empty()) sheet.line("band due to", causes);
}

}  // namespace

void print_band(const Sheet& sheet, const analysis::Forecast& forecast) {
  const bool drawn = forecast.middle.has_value();
  const simulation::RunOutcome &low = forecast.severe, &central = drawn ? *forecast.middle : forecast.central,
                               &high = forecast.mild;
  const int width = sheet.units == base::ShownUnits::both ? 26 : 16;
  const auto row = [&](const std::string& label, const auto& cell) {
    sheet.out << "  " << std::left << std::setw(17) << label << std::setw(width) << cell(low)
              << std::setw(width) << cell(central) << cell(high) << "\n";
  };
  sheet.out << "  " << std::left << std::setw(17)
            << (forecast.learned_from > 0 ? "calibrated" : "uncalibrated") << std::setw(width) << "low"
            << std::setw(width) << (drawn ? "middle" : "central") << "high\n";
  row("  due in hole", hole_of);
  row("  footage", [&](const simulation::RunOutcome& run) { return footage_of(run, sheet.units); });
  row("  rotating", hours_of);
  if (drawn) {
    tell_draws(sheet, forecast);
  } else {
    tell_numbers(sheet, forecast);
  }
}

std::string hottest_ends_words(const analysis::Forecast& forecast, base::ShownUnits units) {
  const auto hottest = [&](const simulation::RunOutcome& run) {
    return base::show(run.hottest.temperature, base::shown::temperature, units);
  };
  return std::string("hottest ") + (forecast.middle ? "to rework due " : "") + hottest(forecast.severe) +
         " in the low case, " + hottest(forecast.mild) + " in the high one";
}

}  // namespace dullcast::commands
