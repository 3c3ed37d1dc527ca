#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "engine/shop/plan_texts.hpp"

// Broken plans end in located errors or in plans that can be run.
namespace dullcast::shop {
namespace {

constexpr std::string_view odd_letters = " \n\r\t:{}[]-,;|#'\"&*!0123456789.eE+/()abmnfto\\\x01\xc2\xff";

std::string broken(std::string text, std::mt19937& random) {
  const int changes = random() % 4 == 0 ? 3 : 1;
  for (int k = 0; k < changes; ++k) {
    std::size_t at = random() % text.size();
    switch (random() % 6) {
      case 0:
        text.erase(at, 1 + random() % 8);
        break;
      case 1:
        text.insert(at, 1, odd_letters[random() % odd_letters.size()]);
        break;
      case 2:
        text[at] = odd_letters[random() % odd_letters.size()];
        break;
      case 3:
      case 4:  // another digit, which mostly makes another plan
        at = text.find_first_of("0123456789", at);
        if (at != std::string::npos) text[at] = static_cast<char>('0' + random() % 10);
        break;
      default:
        text.insert(at, text.substr(random() % text.size(), 1 + random() % 30));
    }
    if (text.empty()) text = "x";
  }
  return text;
}

/// What could not be run in a plan that was read; empty when all can.
std::string fault_of(const ShopPlan& plan) {
  if (!(plan.end > 0.0) || plan.weeks.size() < 2 || plan.weeks.front() > 0.0 || plan.weeks.back() < plan.end)
    return "days";
  if (plan.stations.empty() || plan.holes.empty() || plan.bits.empty()) return "nothing there";
  for (const Station& station : plan.stations) {
    if (station.name.empty() || station.benches < 1 || station.open.always()) return "station";
    if (!(statistics::quantile(station.task, 0.99) >= 0.0)) return "task";
    if (station.a_piece && !(statistics::quantile(*station.a_piece, 0.01) >= 0.0)) return "a piece";
  }
  for (const FleetBit& bit : plan.bits) {
    if (bit.design >= plan.designs.size() || (bit.at_rig && *bit.at_rig >= plan.rigs.size())) return "bit";
    const auto cutters = plan.designs[bit.design].bit.layout.count();
    if (bit.condition.worn_height.size() != cutters || bit.condition.lost.size() != cutters)
      return "condition";
    if (!(bit.from >= 0.0)) return "from";
  }
  for (const BookedHole& hole : plan.holes) {
    if (hole.rig >= plan.rigs.size() || hole.design >= plan.designs.size()) return "hole";
    if (hole.bit && (*hole.bit >= plan.bits.size() || plan.bits[*hole.bit].design != hole.design))
      return "its bit";
    if (std::isnan(hole.booked) || hole.booked < 0.0) return "booked";
    if (hole.scenario.bit.layout.count() != plan.designs[hole.design].bit.layout.count())
      return "its scenario";
  }
  for (const Rig& rig : plan.rigs) {
    if (!(rig.travel >= 0.0) || !(rig.asks_ahead >= 0.0)) return "rig";
  }
  return "";
}

TEST(MutatedPlan, EndsInLocatedErrorsOrInAPlanThatCanBeRun) {
  const std::string text = testing::plan_with(
      "bit: K-1, design: four", "bit: K-1, design: four, at: Heron, from: 2031-11-04, starting_wear: 0.5 mm",
      std::string(testing::plan_text()) +
          "changes: {one_more_bit: no, more_shift: {name: s, shifts: [saturday 07:00 to 12:00]}}\n");
  std::mt19937 random(7);
  int read = 0, refused = 0;
  for (int k = 0; k < 3000; ++k) {
    const std::string changed = broken(text, random);
    std::vector<input::Warning> warnings;
    try {
      const ShopPlan plan =
          read_shop_plan_text(changed, testing::plan_file(), testing::plan_scenarios(), warnings);
      EXPECT_EQ(fault_of(plan), "") << changed;
      ++read;
    } catch (const input::ScenarioErrors& errors) {
      EXPECT_EQ(errors.messages().front().rfind(testing::plan_file(), 0), 0u)
          << errors.messages().front() << "\n"
          << changed;
      ++refused;
    }
  }
  EXPECT_GT(read, 150);
  EXPECT_GT(refused, 500);
}

}  // namespace
}  // namespace dullcast::shop
