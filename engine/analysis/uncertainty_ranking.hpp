#pragma once

#include <string>
#include <vector>

#include "engine/analysis/forecast.hpp"

namespace dullcast::analysis {

/// What one whole life came to.
struct LifeFound {
  bool due = false;            // rework fell due; otherwise the run ended first and the rest is a lower bound
  int hole = 0;                // counted from 0
  double footage = 0.0;        // m
  double rotating_time = 0.0;  // s
  double hottest_flat = 0.0;   // K, up to there
  double chip_probability = 0.0;  // 1, of the likeliest edge, up to there
  double wear_per_hole = 0.0;     // m, greatest worn height gained over holes drilled
};

/// One uncertain number and what its spread does to the forecast.
struct RankedNumber {
  std::string name;
  scenario::Quantity quantity;
  double slope = 0.0;   // of ln(wear of one hole), central to high: see number_effects
  bool lived = false;   // whether `low` and `high` are whole lives
  LifeFound low, high;  // with the number alone at its low and at its high value
  double spread = 0.0;  // half of the 10 % to 90 % range of ln(life) that this number makes, signed: above 0
                        // where the high value lives longer (or, ranked by a hole's wear, wears less)
  double share = 0.0;   // of the variance of what is ranked, numbers independent, 0..1
  bool held_back = false;  // a life that did not end within the run: `spread` may be larger
};

/// What the spreads and shares are of.
enum class RankedBy {
  life,         // rotating hours to rework due
  wear_of_hole  // ln(wear of one hole), where the central life does not end: there is no life to rank
};

struct UncertaintyRanking {
  LifeFound central;
  RankedBy by = RankedBy::life;
  std::vector<RankedNumber> numbers;  // every number with low < high, greatest share first
  std::string rule;                   // that falls due first, or is nearest to
  double slopes_missed = 0.0;  // greatest difference between whole-life and one-hole |spread| among `lived`
};

struct UncertaintyOptions {
  int threads = 1;
  int whole_lives = 12;     // numbers whose ends are lived through
  double tolerance = 1e-2;  // of the runs, which are compared with each other
};

/// Perturbs every number of the scenario whose low and high differ. First each through one hole from half a
/// life's wear (number_effects); then the `whole_lives` with the greatest effect through whole lives, each at
/// its low and its high value with all others central. ln(life in rotating hours) at both ends gives the
/// number's spread, half of ln(high/low); numbers not lived through get minus their one-hole slope. Shares
/// are squares over their sum: independent numbers, no interactions. Random events are not drawn; lives end
/// where rework falls due, or after twice the scenario's holes.
///
/// A run that ended without rework being due is no life: its hours are those of drilling, not of wear. Where
/// one end of a number is such a run, its spread is what the hours bound it to, or the one-hole slope where
/// that is larger; where both are, the slope. Where the central run is, all numbers are ranked by the slope:
/// by the wear of a hole. Deterministic for any number of threads; throws what run() throws.
UncertaintyRanking rank_uncertainties(const scenario::Scenario& scenario, const UncertaintyOptions& options,
                                      const ForecastProgress& progress = {});

/// Sets shares and order from the spreads. Public so that it can be held against closed forms.
void share_out(std::vector<RankedNumber>& numbers);

}  // namespace dullcast::analysis
