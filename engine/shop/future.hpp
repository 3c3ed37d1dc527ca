#pragma once

#include "engine/shop/bit_life.hpp"
#include "engine/shop/future_log.hpp"

namespace dullcast::shop {

/// One future of the plan, up to its end, by discrete events: rigs ask for bits, drill their holes with them
/// and send back what is due; the shop's benches rework them, cutters permitting, and they go out again.
/// `drill` is the future's, and knows afterwards what was drilled. Deterministic. Throws what
/// simulation::run throws.
FutureLog simulate_future(const ShopPlan& plan, FutureDrill& drill, const Trial& trial);

}  // namespace dullcast::shop
