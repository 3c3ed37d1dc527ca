#include <array>
#include <cmath>

#include "engine/shop/shop_plan_reader.hpp"
#include "engine/sweep/sweep_plan_reader.hpp"
#include "fuzz/fed_reader.hpp"
#include "fuzz/feeds.hpp"

namespace dullcast::fuzz {

void take_sweep_plan(const std::string& bytes) {
  const auto parts = parts_of_fed(bytes, "plan");
  const auto part = [&](const char* name) {
    const auto found = parts.find(name);
    return found == parts.end() ? std::string() : found->second;
  };
  sweep::SweepTexts texts;
  texts.plan = part("plan");
  texts.plan_file = fed_folder() + "/fed.yaml";
  texts.scenario =
      "title: base\nbit: {like: three_blade_3_3_4}\nfluid: water\nplan:\n  - {pull_down: 2000 lbf, "
      "rotary_speed: 85 rpm, flow: 20 gal/min}\ncolumn:\n  layers:\n    - {rock: shale, thickness: 3 ft}\n"
      "    - {rock: sandstone, thickness: 3 ft}\nrework: {worn_height: 1 mm}\n";
  texts.scenario_file = fed_folder() + "/well.yaml";
  texts.table = part("cases.csv");
  texts.table_file = fed_folder() + "/cases.csv";
  was_read([&](std::vector<input::Warning>& warnings) {
    const sweep::PlanNames names = sweep::names_in_plan(texts.plan, texts.plan_file);
    const sweep::SweepPlan plan = sweep::read_sweep_plan(texts, fed_reader(), warnings);
    if (names.scenario.empty()) throw Fault("a plan of no scenario is read");
    if (plan.factors.size() > 100'000) throw Fault("more factors than bytes");
  });
}

void take_shop_plan(const std::string& bytes) {
  static constexpr std::array beside{"bits.csv", "holes.csv", "cutters.csv", "learned.yaml", "shelf.csv"};
  const auto parts = parts_of_fed(bytes, "plan");
  for (const char* name : beside) {
    const auto found = parts.find(name);
    put_beside(name, found == parts.end() ? nullptr : &found->second);
  }
  const auto plan = parts.find("plan");
  was_read([&](std::vector<input::Warning>& warnings) {
    const shop::ShopPlan read = shop::read_shop_plan_text(plan == parts.end() ? "" : plan->second,
                                                          fed_folder() + "/fed.yaml", fed_reader(), warnings);
    if (!(std::isfinite(read.end) && read.end > 0.0)) throw Fault("a plan that ends before it begins");
    if (read.futures < 1) throw Fault("a plan without a future");
    for (const shop::BookedHole& hole : read.holes) {
      if (hole.design >= read.designs.size()) throw Fault("a hole of no design");
    }
    for (const shop::FleetBit& bit : read.bits) {
      if (bit.design >= read.designs.size()) throw Fault("a bit of no design");
    }
  });
}

}  // namespace dullcast::fuzz
