#include "engine/analysis/wear_flip.hpp"

#include <algorithm>
#include <map>

namespace dullcast::analysis {
namespace {

constexpr double most = 0.99;  // of the usable height: at all of it the bit is past repair before it begins
constexpr int steps = 8;       // of the scan
constexpr int halvings = 4;    // of the step in which it flips

double share_at(int step) {
  return most * step / steps;
}

/// What "run again" costs more than the cheapest other choice, and the standard error of that.
struct Excess {
  bool known = false;
  double money = 0.0, error = 0.0;
  bool clearly_cheaper() const { return known && money < -2.0 * error; }
  bool clearly_dearer() const { return known && money > 2.0 * error; }
};

Excess excess_of(const NextHole& hole) {
  Excess excess;
  if (!hole.cheapest) return excess;
  excess.known = true;
  const bool best = *hole.cheapest == BitChoice::run_again;
  const ChoiceOutlook& dearer = *hole.of(best ? *hole.runner_up : BitChoice::run_again);
  excess.money = best ? -dearer.more : dearer.more;
  excess.error = dearer.more_error;
  return excess;
}

/// The found bit with its wear scaled: 1 puts the worst cutter at its usable height.
class ScaledWear {
 public:
  explicit ScaledWear(const scenario::Scenario& scenario)
      : scenario_(scenario),
        there_(1 - condition_at_start(scenario).lost),
        usable_(scenario.rules.beyond_repair_share * scenario.bit.layout.exposure),
        pattern_(scenario.bit.starting_wear) {
    double worst = worst_share(pattern_);
    if (!(worst > 0.0)) {
      pattern_ = usable_;
      worst = 1.0;
    } else {
      as_found_ = worst;
    }
    pattern_ /= worst;
  }
  double as_found() const { return as_found_; }
  scenario::Scenario at(double share) const {
    scenario::Scenario scaled = scenario_;
    scaled.bit.starting_wear = (share * pattern_).min(scaled.bit.layout.exposure);
    return scaled;
  }
  WornSoFar words(double share) const {
    const Eigen::ArrayXd worn = share * pattern_ * there_.cast<double>();
    return {worn.maxCoeff(), worn.sum() / std::max(1, there_.sum())};
  }

 private:
  double worst_share(const Eigen::ArrayXd& worn) const {
    return (worn / usable_ * there_.cast<double>()).maxCoeff();
  }

  const scenario::Scenario& scenario_;
  Eigen::ArrayXi there_;
  Eigen::ArrayXd usable_, pattern_;
  double as_found_ = 0.0;
};

/// Excess by share of the usable height, worked out once for each.
class TriedWear {
 public:
  TriedWear(const scenario::Scenario& scenario, const ScaledWear& wear, const HoleDrawOptions& options,
            const ForecastProgress& progress)
      : wear_(wear),
        options_(options),
        progress_(progress),
        price_(std::max(scenario.costs.bit, scenario.costs.replacement)),
        fresh_(drawn_holes(with_new_bit(scenario), options, {})) {
    options_.least_progress = least_progress_beside(fresh_);
  }
  const Excess& at(double share) {
    const auto known = tried_.find(share);
    if (known != tried_.end()) return known->second;
    const scenario::Scenario scaled = wear_.at(share);
    const BitBill now = bit_bill(scaled, condition_at_start(scaled));
    ChoiceDraws draws;
    draws[static_cast<std::size_t>(BitChoice::run_again)] = drawn_holes(scaled, options_, {});
    if (now.plan.kind != condition::RepairClass::scrap && now.plan.kind != condition::RepairClass::none)
      draws[static_cast<std::size_t>(BitChoice::rework_first)] =
          drawn_holes(reworked(scaled, now.plan), options_, {});
    draws[static_cast<std::size_t>(BitChoice::new_bit)] = fresh_;
    if (progress_) progress_(static_cast<double>(tried_.size() + 1), steps + 1.0 + halvings);
    return tried_.emplace(share, excess_of(compare_choices(scaled, draws))).first->second;
  }
  /// Whether "run again" is not the cheapest there; a millionth of a bit's price is no difference.
  bool dearer(const Excess& excess) const { return excess.money > 1e-6 * price_; }
  const std::map<double, Excess>& all() const { return tried_; }

 private:
  const ScaledWear& wear_;
  HoleDrawOptions options_;
  const ForecastProgress& progress_;
  double price_;
  std::vector<DrawnHole> fresh_;
  std::map<double, Excess> tried_;
};

}  // namespace

WearFlip wear_flip(const scenario::Scenario& scenario, const HoleDrawOptions& options,
                   const ForecastProgress& progress) {
  const ScaledWear wear(scenario);
  WearFlip flip;
  flip.as_found = wear.words(wear.as_found());
  flip.usable = wear.words(1.0);
  if (!missing_prices(scenario.costs).empty()) return flip;
  TriedWear tried(scenario, wear, options, progress);
  int first = -1;
  for (int k = 0; k <= steps; ++k) {
    const Excess& excess = tried.at(share_at(k));
    if (!excess.known) return flip;
    if (first < 0 && tried.dearer(excess)) first = k;
    if (first >= 0 && !tried.dearer(excess) && !flip.cheapest_again)
      flip.cheapest_again = wear.words(share_at(k));
  }
  flip.kind = first < 0    ? WearFlip::Kind::never
              : first == 0 ? WearFlip::Kind::from_the_start
                           : WearFlip::Kind::flips;
  if (first <= 0) return flip;
  double below = share_at(first - 1), above = share_at(first);
  for (int k = 0; k < halvings; ++k) {
    const double middle = 0.5 * (below + above);
    (tried.dearer(tried.at(middle)) ? above : below) = middle;
  }
  const double at = 0.5 * (below + above);
  flip.at = wear.words(at);
  for (const auto& [share, excess] : tried.all()) {
    if (share < at && excess.clearly_cheaper()) flip.clear_below = wear.words(share);
    if (share > at && excess.clearly_dearer() && !flip.clear_above) flip.clear_above = wear.words(share);
  }
  return flip;
}

}  // namespace dullcast::analysis
