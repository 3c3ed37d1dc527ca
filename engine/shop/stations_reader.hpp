#pragma once

#include "engine/shop/plan_reading.hpp"

namespace dullcast::shop {

/// What the `shop:` of a plan says, and what else is read against it.
struct ShopSection {
  std::vector<Station> stations;
  std::vector<std::vector<Shift>> shifts;  // of each station
  std::vector<DaysOff> off;
  std::vector<CutterStock> cutters;
  QueueOrder order = QueueOrder::first_come;
};

/// Reads `shop:`: stations in the order in which bits pass, shifts, holidays, cutters. Reports everything
/// that is wrong, among it a shop where no station works on cutters.
ShopSection read_shop(input::MapReader& top, PlanReading& plan);

/// Reads `changes:` for such a shop.
Changes read_changes(input::MapReader& top, const ShopSection& shop, const PlanReading& plan);

}  // namespace dullcast::shop
