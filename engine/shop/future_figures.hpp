#pragma once

#include <vector>

#include "engine/shop/future_log.hpp"
#include "engine/shop/shop_plan.hpp"
#include "engine/statistics/mean_error.hpp"
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

/// By how much a figure is more in futures `with` something than in the same futures without, mean and error.
statistics::MeanError more(const std::vector<FutureFigures>& with, const std::vector<FutureFigures>& without,
                           double FutureFigures::*figure);

/// The same of every figure, into whatever tells of a change.
template <class Told>
void tell_more(Told& told, const std::vector<FutureFigures>& with,
               const std::vector<FutureFigures>& without) {
  const auto put = [&](double FutureFigures::*figure, double& mean, double& error) {
    const statistics::MeanError found = more(with, without, figure);
    mean = found.mean;
    error = found.error;
  };
  put(&FutureFigures::late_holes, told.late_holes_more, told.late_holes_error);
  put(&FutureFigures::late_time, told.late_time_more, told.late_time_error);
  put(&FutureFigures::total, told.total_more, told.total_error);
}

/// Whether every booked hole has the prices without which no money is told (analysis::missing_prices).
bool priced(const ShopPlan& plan);

}  // namespace dullcast::shop
