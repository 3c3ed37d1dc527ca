#include "tools/commands/brief_findings.hpp"

#include <algorithm>

#include "tools/commands/findings_words.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

void print_brief(std::ostream& out, const scenario::Scenario& scenario,
                 const analysis::UncertaintyRanking& doubts, base::ShownUnits units) {
  constexpr std::size_t told = 5;
  const Sheet sheet{out, units};
  const bool by_life = doubts.by == analysis::RankedBy::life;
  out << "Doubts about \"" << scenario.title << "\"\n";
  const std::string hours =
      base::show(doubts.central.rotating_time, base::shown::hours, base::ShownUnits::si) +
      " rotating, in hole " + std::to_string(doubts.central.hole + 1);
  if (by_life)
    sheet.line("rework due", "after " + hours + ", by " + rule_words(doubts.rule, scenario.rules));
  else
    sheet.line("rework", "does not fall due in " + hours + "; told is the wear of one hole");
  for (std::size_t k = 0; k < std::min(told, doubts.numbers.size()); ++k) {
    const analysis::RankedNumber& number = doubts.numbers[k];
    sheet.line(percent_words(number.share), spoken(number.name));
  }
  if (!doubts.numbers.empty())
    sheet.line("first to do", "measure the first of them; one inspected bit tells of most");
  out << "Shares of the variance of " << (by_life ? "the hours to rework" : "wear")
      << ", one number at a time. Estimates; the bit in the hand decides.\n";
}

void print_brief(std::ostream& out, const storage::SweepTable& table, const analysis::Findings& findings,
                 base::ShownUnits units) {
  const Sheet sheet{out, units};
  out << "Findings of \"" << table.title << "\": " << table.cases() << " runs";
  if (findings.failed > 0) out << ", " << findings.failed << " of them failed";
  out << "\n";
  if (findings.trade_off && findings.trade_off->best) {
    const long best = findings.trade_off->points[static_cast<std::size_t>(*findings.trade_off->best)].point;
    const auto alike = std::count_if(findings.trade_off->points.begin(), findings.trade_off->points.end(),
                                     [](const analysis::PointMerit& point) { return point.like_best; });
    sheet.line("cheapest", settings_words(table, best, units));
    sheet.line("", alike > 1
                       ? std::to_string(alike - 1) + " more points cannot be told from it by these draws"
                       : "no other point is as cheap, by these draws");
  } else if (findings.trade_off) {
    sheet.line("cheapest", "no point keeps the limits");
  }
  if (findings.life && findings.life->draws > 0) {
    for (std::size_t m = 0; m < analysis::life_measures.size(); ++m) {
      if (analysis::life_measures[m] != analysis::LifeMeasure::rotating_time) continue;
      for (std::size_t s = 0; s < analysis::life_shares.size(); ++s)
        sheet.line(share_name(analysis::life_shares[s]) + " to rework",
                   quantile_words(findings.life->quantiles[m][s], *findings.life, analysis::life_measures[m],
                                  units));
    }
  } else {
    sheet.line("rework", "not told by these runs");
  }
  for (const analysis::Sensitivity& one : findings.sensitivities) {
    if (one.outcome == "life" && !one.factors.empty())
      sheet.line("matters most", one.factors.front().told + ", for " + outcome_words(one.outcome));
  }
  out << "Estimates: few draws leave much open; dullcast findings without --brief says how much.\n";
}

}  // namespace dullcast::commands
