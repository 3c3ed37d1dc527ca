#pragma once

#include <vector>

#include "engine/shop/future_log.hpp"
#include "engine/shop/shop_plan.hpp"
#include "engine/storage/shop_outlook.hpp"

namespace dullcast::shop {

/// A plan's outlook over its futures' logs, without changes and early pulls. A bit's place on a day is that
/// of twelve hours after the day's begin counted in days of 24 hours; a bit that waits when the plan ends
/// counts as waiting up to there.
storage::ShopOutlook outlook_of(const ShopPlan& plan, const std::vector<const FutureLog*>& futures);

}  // namespace dullcast::shop
