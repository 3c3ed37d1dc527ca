#pragma once

#include <vector>

#include "engine/shop/future_log.hpp"
#include "engine/shop/shop_plan.hpp"
#include "engine/storage/shop_outlook.hpp"

namespace dullcast::shop {

/// Mean and order statistics of what is a number among the values: the 10 % point is the least value that a
/// tenth of them reach, and so on. All NaN of none.
storage::Spread spread_of(std::vector<double> values);

/// What one future comes to in a few figures, for comparing it with the same future under a change.
struct FutureFigures {
  double late_holes = 0.0, late_time = 0.0, total = 0.0;  // number, s, money
  std::vector<double> turnarounds;                        // s, of bits that were reworked and are ready
};
FutureFigures figures_of(const FutureLog& log);

/// Mean of the differences and the standard error of that.
struct MeanMore {
  double mean = 0.0, error = 0.0;
};
MeanMore mean_of(const std::vector<double>& differences);

/// Whether every booked hole has the prices without which no money is told (analysis::missing_prices).
bool priced(const ShopPlan& plan);

}  // namespace dullcast::shop
