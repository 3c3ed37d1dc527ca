#pragma once

#include <functional>

#include "engine/shop/shop_plan.hpp"
#include "engine/storage/shop_outlook.hpp"

namespace dullcast::shop {

struct ShopOptions {
  int threads = 1;
  bool changes = true;  // whether benches, bits and shifts are tried, as the plan asks
  bool pulls = true;    // whether early pulls are sought, as the plan asks
  /// Told what is being done ("Drilling futures", "Seeking early pulls") and how far it is. One thread at a
  /// time; must not throw.
  std::function<void(const char* what, double done, double all)> progress;
};

/// Runs a plan's futures, each as planned and under every change that the plan asks for, seeks early pulls,
/// and tells what it all comes to. Futures that cannot be run are left out and counted; where none can, the
/// first one's exception is thrown. What is the machine's fault is thrown. Deterministic for any number of
/// threads.
storage::ShopOutlook run_shop(const ShopPlan& plan, const ShopOptions& options);

}  // namespace dullcast::shop
