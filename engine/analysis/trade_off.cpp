#include "engine/analysis/trade_off.hpp"

#include <algorithm>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "models/common/domain.hpp"

namespace dullcast::analysis {
namespace {

constexpr double warm_share = 0.9;  // the quantile of the hottest flat that points are compared by

Eigen::ArrayXd draws_of(const Eigen::ArrayXd& values, const TradeOffCases& cases, long point) {
  return values.segment(point * cases.draws, cases.draws);
}

WithinLimits judge(double share, const statistics::Interval& range, double hold) {
  if (share >= hold) return range.low >= hold ? WithinLimits::yes : WithinLimits::likely;
  return range.high < hold ? WithinLimits::no : WithinLimits::unlikely;
}

PointMerit merit_of(const TradeOffCases& cases, const TradeOffLimits& limits, double confidence, long point) {
  PointMerit merit;
  merit.point = point;
  const Eigen::ArrayXd cost = draws_of(cases.cost_per_metre, cases, point),
                       hot = draws_of(cases.hottest_flat, cases, point),
                       chips = draws_of(cases.expected_chips, cases, point),
                       finished = draws_of(cases.finished, cases, point);
  merit.cost = drawn_mean(cost);
  merit.chips = drawn_mean(chips);
  merit.hot = statistics::quantile_bounds(hot, warm_share, confidence);
  long finishing = 0, keeping = 0;
  for (Eigen::Index k = 0; k < cost.size(); ++k) {
    if (std::isnan(finished(k)) || std::isnan(hot(k)) || std::isnan(chips(k))) continue;
    ++merit.draws;
    if (finished(k) > 0.5) ++finishing;
    if (hot(k) <= limits.hottest_flat && chips(k) <= limits.expected_chips) ++keeping;
  }
  merit.failed = cases.draws - merit.draws;
  if (merit.draws == 0) return merit;
  const auto draws = static_cast<double>(merit.draws);
  merit.finishing = static_cast<double>(finishing) / draws;
  merit.finishing_range = statistics::probability_interval(finishing, merit.draws, confidence);
  merit.keeping = static_cast<double>(keeping) / draws;
  merit.keeping_range = statistics::probability_interval(keeping, merit.draws, confidence);
  const bool limited = std::isfinite(limits.hottest_flat) || std::isfinite(limits.expected_chips);
  merit.within = limited ? judge(merit.keeping, merit.keeping_range, limits.hold) : WithinLimits::yes;
  return merit;
}

bool eligible(const PointMerit& merit) {
  return merit.draws > 0 && (merit.within == WithinLimits::yes || merit.within == WithinLimits::likely) &&
         std::isfinite(merit.cost.mean);
}

struct Difference {
  DrawnMean over;
  double freedom = 0.0;
};

Difference difference(const TradeOffCases& cases, long point, long best) {
  const Eigen::ArrayXd mine = draws_of(cases.cost_per_metre, cases, point),
                       its = draws_of(cases.cost_per_metre, cases, best);
  Difference found;
  if (cases.draws_alike) {
    found.over = drawn_mean(mine - its);
    found.freedom = static_cast<double>(found.over.draws - 1);
    return found;
  }
  const DrawnMean a = drawn_mean(mine), b = drawn_mean(its);
  const double va = a.error * a.error, vb = b.error * b.error;
  found.over = {a.mean - b.mean, std::sqrt(va + vb), std::min(a.draws, b.draws)};
  found.freedom = (va + vb) * (va + vb) /
                  (va * va / static_cast<double>(a.draws - 1) + vb * vb / static_cast<double>(b.draws - 1));
  return found;
}

/// Whether a difference is above 0 significantly, at one side's `tail`.
bool above_nothing(const Difference& found, double tail) {
  if (!(found.freedom >= 1.0) || !std::isfinite(found.over.error)) return false;
  // Draws that all differ by one and the same amount leave nothing uncertain.
  if (found.over.error == 0.0) return found.over.mean > 0.0;
  const boost::math::students_t t(found.freedom);
  return found.over.mean > found.over.error * quantile(complement(t, tail));
}

void compare_with_best(const TradeOffCases& cases, double confidence, TradeOff& result) {
  long eligibles = 0;
  for (const PointMerit& merit : result.points) {
    if (!eligible(merit)) continue;
    ++eligibles;
    const auto cost = [&](long place) { return result.points[static_cast<std::size_t>(place)].cost.mean; };
    if (!result.best || merit.cost.mean < cost(*result.best)) result.best = merit.point;
  }
  if (!result.best) return;
  const double tail = (1.0 - confidence) / static_cast<double>(std::max(1L, eligibles - 1));
  for (PointMerit& merit : result.points) {
    if (merit.draws == 0) continue;
    const Difference found = difference(cases, merit.point, *result.best);
    merit.over_best = found.over;
    if (found.freedom >= 1.0) result.told_apart = true;
    merit.like_best = eligible(merit) && (merit.point == *result.best || !above_nothing(found, tail));
  }
}

bool no_worse(const PointMerit& a, const PointMerit& b) {
  return a.cost.mean <= b.cost.mean && a.hot.value <= b.hot.value && a.chips.mean <= b.chips.mean;
}

bool equal(const PointMerit& a, const PointMerit& b) {
  return a.cost.mean == b.cost.mean && a.hot.value == b.hot.value && a.chips.mean == b.chips.mean;
}

void mark_front(std::vector<PointMerit>& points) {
  std::vector<PointMerit*> order;
  for (PointMerit& merit : points) {
    if (std::isfinite(merit.cost.mean) && std::isfinite(merit.hot.value) && std::isfinite(merit.chips.mean))
      order.push_back(&merit);
  }
  // Whatever beats a point comes before it in this order, so looking at the front so far is enough.
  std::stable_sort(order.begin(), order.end(), [](const PointMerit* a, const PointMerit* b) {
    if (a->cost.mean != b->cost.mean) return a->cost.mean < b->cost.mean;
    if (a->hot.value != b->hot.value) return a->hot.value < b->hot.value;
    return a->chips.mean < b->chips.mean;
  });
  std::vector<const PointMerit*> front;
  for (PointMerit* merit : order) {
    merit->on_front = std::none_of(front.begin(), front.end(), [&](const PointMerit* other) {
      return no_worse(*other, *merit) && !equal(*other, *merit);
    });
    if (merit->on_front) front.push_back(merit);
  }
}

}  // namespace

const char* within_limits_words(WithinLimits within) {
  switch (within) {
    case WithinLimits::yes:
      return "yes";
    case WithinLimits::likely:
      return "likely";
    case WithinLimits::unlikely:
      return "unlikely";
    case WithinLimits::no:
      return "no";
  }
  throw std::logic_error("within_limits_words: not an answer");
}

DrawnMean drawn_mean(const Eigen::ArrayXd& values) {
  DrawnMean result;
  double sum = 0.0;
  for (const double value : values) {
    if (std::isnan(value)) continue;
    ++result.draws;
    sum += value;
  }
  const auto n = static_cast<double>(result.draws);
  if (result.draws == 0) return result;
  result.mean = sum / n;
  if (result.draws < 2) return result;
  double squares = 0.0;
  for (const double value : values) {
    if (!std::isnan(value)) squares += (value - result.mean) * (value - result.mean);
  }
  result.error = std::sqrt(squares / (n - 1.0) / n);
  return result;
}

double half_width(const DrawnMean& mean, double confidence) {
  statistics::require_confidence(confidence, "half_width");
  if (mean.draws < 2) return std::numeric_limits<double>::quiet_NaN();
  const boost::math::students_t t(static_cast<double>(mean.draws - 1));
  return mean.error * quantile(complement(t, 0.5 * (1.0 - confidence)));
}

TradeOff trade_off(const TradeOffCases& cases, const TradeOffLimits& limits, double confidence) {
  statistics::require_confidence(confidence, "trade_off");
  require_domain(limits.hold > 0.0 && limits.hold <= 1.0, "trade_off",
                 "limits hold for a share above 0 and up to 1", limits.hold);
  for (const Eigen::ArrayXd* column :
       {&cases.cost_per_metre, &cases.hottest_flat, &cases.expected_chips, &cases.finished}) {
    require_domain(column->size() == cases.points * cases.draws, "trade_off", "there is one entry a case",
                   static_cast<double>(column->size()));
  }
  TradeOff result;
  result.confidence = confidence;
  result.paired = cases.draws_alike;
  for (long point = 0; point < cases.points; ++point)
    result.points.push_back(merit_of(cases, limits, confidence, point));
  compare_with_best(cases, confidence, result);
  mark_front(result.points);
  return result;
}

}  // namespace dullcast::analysis
