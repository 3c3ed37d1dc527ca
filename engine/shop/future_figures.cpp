#include "engine/shop/future_figures.hpp"

#include <algorithm>
#include <cmath>

#include "engine/analysis/bit_bill.hpp"

namespace dullcast::shop {

storage::Spread spread_of(std::vector<double> values) {
  std::erase_if(values, [](double value) { return std::isnan(value); });
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  if (values.empty()) return {none, none, none, none};
  std::sort(values.begin(), values.end());
  const auto n = static_cast<double>(values.size());
  storage::Spread spread;
  for (const double value : values) spread.mean += value / n;
  const auto at = [&](double share) {
    // A share that is a whole number of values but for its last digit is that number.
    const double rank = std::max(1.0, std::ceil(share * n * (1.0 - 1e-12)));
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

MeanMore mean_of(const std::vector<double>& differences) {
  constexpr double none = std::numeric_limits<double>::quiet_NaN();
  const auto n = static_cast<double>(differences.size());
  if (differences.empty()) return {none, none};
  MeanMore more;
  for (const double one : differences) more.mean += one / n;
  double squares = 0.0;
  for (const double one : differences) squares += (one - more.mean) * (one - more.mean);
  more.error = differences.size() > 1 ? std::sqrt(squares / (n - 1.0) / n) : none;
  return more;
}

bool priced(const ShopPlan& plan) {
  return std::all_of(plan.holes.begin(), plan.holes.end(), [](const BookedHole& hole) {
    return analysis::missing_prices(hole.scenario.costs).empty();
  });
}

}  // namespace dullcast::shop
