#pragma once

#include "engine/analysis/bit_bill.hpp"
#include "engine/analysis/priced_bit.hpp"
#include "engine/shop/shop_plan.hpp"

/// A shop of three benches, two rigs and bits that wear by most of their allowance in one short hole. Every
/// number is invented; nothing is left to chance unless a test says so.
namespace dullcast::shop {

inline constexpr double an_hour = 3600.0, a_day = 24.0 * an_hour;

inline Duration exactly(double seconds) {
  return {Duration::Kind::fixed, seconds, 0.0, 0.0};
}

/// Abrasion so fast that rework is due in a hole of 5 m.
inline scenario::Scenario wearing_hole() {
  scenario::Scenario s = testing::priced_bit();
  s.numbers.abrasion_coefficient = samples::exactly(3e-14);
  s.repeat.holes = 1;
  s.repeat.stop_at = scenario::StopAt::beyond_repair;
  s.random_events.drawn = true;
  return s;
}

inline Station station(const char* name, WorksOn works_on, double task) {
  Station one;
  one.name = name;
  one.works_on = works_on;
  one.task = exactly(task);
  return one;
}

/// `bits` bits in the shop, and on each of two rigs `holes` holes, one every second day from the second day.
inline ShopPlan small_plan(std::size_t bits, int holes) {
  ShopPlan plan;
  plan.title = "small";
  plan.time_zone = "UTC";
  plan.first_day = "2031-11-03";
  plan.end = 60.0 * a_day;
  for (int week = 0; week <= 9; ++week) plan.weeks.push_back(7.0 * a_day * week);
  plan.futures = 4;
  plan.stations = {station("look", WorksOn::every_bit, 1.0 * an_hour),
                   station("cut", WorksOn::cutters, 4.0 * an_hour),
                   station("check", WorksOn::cutters, 2.0 * an_hour)};
  plan.stations[1].takes_cutters = true;
  plan.stations[1].a_piece = exactly(0.5 * an_hour);
  const scenario::Scenario drilled = wearing_hole();
  plan.designs = {{"small bit", drilled.bit, exactly(20.0 * a_day)}};
  for (const char* name : {"north", "south"})
    plan.rigs.push_back({name, WorkCalendar(), 3.0 * an_hour, 3.0 * an_hour});
  for (std::size_t bit = 0; bit < bits; ++bit) {
    FleetBit one;
    one.name = "B" + std::to_string(bit + 1);
    one.condition = analysis::unused(drilled.bit.layout);
    one.told_by = "new";
    plan.bits.push_back(one);
  }
  for (int hole = 0; hole < holes; ++hole) {
    for (std::size_t rig = 0; rig < 2; ++rig) {
      BookedHole one;
      one.name = plan.rigs[rig].name + " " + std::to_string(hole + 1);
      one.rig = rig;
      one.booked = (1.0 + 2.0 * hole) * a_day;
      one.scenario = drilled;
      plan.holes.push_back(one);
    }
  }
  plan.changes = {true, true, {}, {}};
  return plan;
}

}  // namespace dullcast::shop
