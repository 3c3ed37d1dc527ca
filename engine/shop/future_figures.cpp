#include "engine/shop/future_figures.hpp"

#include <algorithm>
#include <cmath>

#include "engine/analysis/bit_bill.hpp"
#include "engine/statistics/quantile_bounds.hpp"

namespace dullcast::shop {

storage::Spread spread_of(std::vector<double> values) {
  std::erase_if(values, [](double value) { return std::isnan(value); });
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  if (values.empty()) return {none, none, none, none};
  std::sort(values.begin(), values.end());
  storage::Spread spread;
  spread.mean = statistics::mean_error(values).mean;
  const auto at = [&](double share) {
    const long rank = statistics::rank_that_reaches(share, static_cast<long>(values.size()));
    return values[static_cast<std::size_t>(rank) - 1];
  };
  spread.low = at(0.1);
  spread.middle = at(0.5);
  spread.high = at(0.9);
  return spread;
}

FutureFigures figures_of(const FutureLog& log) {
  FutureFigures figures;
  figures.late_holes = log.late_holes();
  figures.late_time = log.late_time();
  figures.total = log.total();
  for (const ShopStay& stay : log.stays) {
    const bool repaired = stay.kind == condition::RepairClass::replace_cutters ||
                          stay.kind == condition::RepairClass::rebuild_pockets;
    if (repaired && stay.ready < never) figures.turnarounds.push_back(stay.ready - stay.arrived);
  }
  return figures;
}

statistics::MeanError more(const std::vector<FutureFigures>& with, const std::vector<FutureFigures>& without,
                           double FutureFigures::*figure) {
  std::vector<double> differences;
  for (std::size_t k = 0; k < with.size(); ++k)
    differences.push_back(with[k].*figure - without.at(k).*figure);
  return statistics::mean_error(differences);
}

bool priced(const ShopPlan& plan) {
  return std::all_of(plan.holes.begin(), plan.holes.end(), [](const BookedHole& hole) {
    return analysis::missing_prices(hole.scenario.costs).empty();
  });
}

}  // namespace dullcast::shop
