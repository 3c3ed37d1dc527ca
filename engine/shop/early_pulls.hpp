#pragma once

#include <functional>
#include <memory>
#include <vector>

#include "engine/shop/bit_life.hpp"
#include "engine/shop/future_log.hpp"
#include "engine/storage/shop_outlook.hpp"

namespace dullcast::shop {

/// One future with what has been drilled in it and how it went as planned.
struct DrilledFuture {
  std::unique_ptr<FutureDrill> drill;
  FutureLog log;
};

struct PullSearch {
  int most = 3;  // pulls
  int threads = 1;
  bool by_money = true;  // otherwise by how long rigs stand
  /// Told how many trials are done of how many at most; one thread at a time.
  std::function<void(double done, double all)> progress;
};

struct EarlyPulls {
  std::vector<storage::EarlyPull> pulls;
  int tried = 0;  // candidates
};

/// Which bits to take out after which hole though they are not due yet. Candidates are the last holes that a
/// bit of the plan drills before the one in which it first falls due, in a fifth of the futures at least, up
/// to most_candidates of them, likeliest first. They are tried one at a time in the first half of the
/// futures, at most most_screened of them; the one that saves most is kept where it saves more than two
/// standard errors, and the search goes on with it in place. What is told of those that are kept comes from
/// the other half, which had no part in choosing them: the best of many tries looks better than it is. Fewer
/// than four futures make no search.
inline constexpr std::size_t most_candidates = 12, most_screened = 40;
EarlyPulls seek_early_pulls(const ShopPlan& plan, std::vector<DrilledFuture>& futures,
                            const PullSearch& search);

}  // namespace dullcast::shop
