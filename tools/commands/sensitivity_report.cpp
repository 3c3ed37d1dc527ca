#include "tools/commands/sensitivity_report.hpp"

#include <algorithm>
#include <cmath>

#include "tools/commands/findings_words.hpp"

namespace dullcast::commands {
namespace {

constexpr std::size_t factors_told = 8;

std::string counted(long count, analysis::SensitivityKind kind) {
  const char* what = kind == analysis::SensitivityKind::elementary_effects ? "walk"
                     : kind == analysis::SensitivityKind::variance_shares  ? "row"
                                                                           : "pair";
  return std::to_string(count) + " " + what + (count == 1 ? "" : "s");
}

std::string range_words(const std::string& low, const std::string& high) {
  return " (" + low + " to " + high + ")";
}

std::string share_words(double share, const statistics::Interval& range) {
  const auto percent = [](double value) { return base::show_number(std::round(1000.0 * value) / 10.0); };
  if (std::isnan(range.low)) return "too few rows to say";
  return percent(share) + " %" + range_words(percent(range.low), percent(range.high) + " %");
}

std::string rank_words(const statistics::RankCorrelation& rank) {
  const auto figure = [](double value) { return base::show_number(std::round(100.0 * value) / 100.0); };
  if (std::isnan(rank.range.low)) return "too few pairs (" + std::to_string(rank.pairs) + ") to say";
  const bool told = rank.range.low > 0.0 || rank.range.high < 0.0;
  return figure(rank.value) + range_words(figure(rank.range.low), figure(rank.range.high)) +
         (told ? "" : ", not told from none");
}

std::vector<std::string> factor_cells(const analysis::Sensitivity& s,
                                      const analysis::FactorSensitivity& factor, const std::string& currency,
                                      base::ShownUnits units) {
  const std::string& name = factor.told;
  if (factor.share)
    return {name, share_words(factor.share->total, factor.share->total_range),
            share_words(factor.share->alone, factor.share->alone_range)};
  if (factor.rank) return {name, rank_words(*factor.rank)};
  const statistics::ElementaryEffect& effect = *factor.effect;
  const auto difference = [&](double value) {
    // A straight effect's spread is rounding, not some 1e-15 of a degree.
    const bool rounding = std::abs(value) < 1e-9 * effect.mean_size;
    return outcome_difference_words(s.outcome, rounding ? 0.0 : value, currency, units);
  };
  const statistics::Interval& range = effect.mean_size_range;
  return {name,
          difference(effect.mean_size) + (std::isnan(range.low)
                                              ? ", too few walks to say"
                                              : range_words(difference(range.low), difference(range.high))),
          difference(effect.mean), difference(effect.spread)};
}

std::vector<std::string> heading_cells(const analysis::Sensitivity& s) {
  const std::string outcome = outcome_words(s.outcome) + ": " + counted(s.used, s.kind);
  switch (s.kind) {
    case analysis::SensitivityKind::elementary_effects:
      return {outcome, "moved by, mean size", "mean with sign", "spread"};
    case analysis::SensitivityKind::variance_shares:
      return {outcome, "with all it does with others", "alone"};
    case analysis::SensitivityKind::rank_correlation:
      break;
  }
  return {outcome, "rank correlation"};
}

/// Whether the outcome answers to nothing: no factor has a number above 0.
bool still(const analysis::Sensitivity& s) {
  return std::all_of(s.factors.begin(), s.factors.end(), [](const analysis::FactorSensitivity& factor) {
    return factor.effect  ? !(factor.effect->mean_size > 0.0)
           : factor.share ? std::isnan(factor.share->total)
                          : std::isnan(factor.rank->value);
  });
}

/// Why life is not ranked, or which of it is not seen.
void tell_lives(const Sheet& sheet, const analysis::Sensitivity& s) {
  const std::string runs = std::to_string(s.censored) + " of " + std::to_string(s.censored + s.lives_ended) +
                           " runs have no life: rework did not fall due within the holes drilled.";
  const char* parts = s.kind == analysis::SensitivityKind::elementary_effects ? "walks"
                      : s.kind == analysis::SensitivityKind::variance_shares  ? "rows"
                                                                              : "pairs";
  if (s.lives_ended == 0) {
    sheet.out << "  No life ended (" << s.censored
              << " runs without rework due), so there is none to rank by. Drill more holes a run.\n";
  } else if (s.used == 0) {
    sheet.out << "  " << runs << "\n  None of the " << parts
              << " is whole without them, so life is not ranked. Drill more holes a run.\n";
  } else if (s.censored > 0) {
    sheet.out << "  " << runs << "\n  Their " << parts
              << " are left out, which hides what makes lives longer than that.\n";
  }
}

void tell(const Sheet& sheet, const analysis::Sensitivity& s, const std::string& currency) {
  const std::vector<int> widths{46, 42, 28, 16};
  sheet.out << "\n";
  const bool life = s.outcome == "life";
  if (life && s.factors.empty()) {
    sheet.row({outcome_words(s.outcome) + ": not ranked"}, widths);
  } else if (still(s)) {
    sheet.row({outcome_words(s.outcome) + ": " + counted(s.used, s.kind), "nothing moves it"}, widths);
  } else {
    sheet.row(heading_cells(s), widths);
    for (std::size_t k = 0; k < s.factors.size() && k < factors_told; ++k)
      sheet.row(factor_cells(s, s.factors[k], currency, sheet.units), widths);
    if (s.factors.size() > factors_told)
      sheet.row(
          {"and " + std::to_string(s.factors.size() - factors_told) + " weaker (--csv FOLDER writes all)"},
          widths);
  }
  if (life && s.censored > 0) {
    tell_lives(sheet, s);
  } else if (s.left_out > 0) {
    sheet.row({counted(s.left_out, s.kind) + " left out for runs that failed"}, widths);
  }
}

}  // namespace

void tell_sensitivities(const Sheet& sheet, const analysis::Findings& findings, const std::string& currency) {
  if (findings.sensitivities.empty()) return;
  const analysis::SensitivityKind kind = findings.sensitivities.front().kind;
  sheet.heading(std::string("\nWhat makes the difference, ") +
                (kind == analysis::SensitivityKind::elementary_effects
                     ? "each factor over its whole range (elementary effects)"
                 : kind == analysis::SensitivityKind::variance_shares
                     ? "as shares of each outcome's variance"
                     : "by rank: 1 always rises with it, -1 always falls, 0 neither") +
                "; in brackets at " + base::show_number(100.0 * findings.confidence, 4) + " % confidence");
  for (const analysis::Sensitivity& sensitivity : findings.sensitivities) tell(sheet, sensitivity, currency);
}

}  // namespace dullcast::commands
