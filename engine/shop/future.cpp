#include "engine/shop/future.hpp"

#include <memory>

#include "engine/analysis/bit_bill.hpp"
#include "engine/shop/future_figures.hpp"
#include "engine/shop/rig_work.hpp"

namespace dullcast::shop {
namespace {

using storage::BitPlace;

/// What a bit's condition costs by its design's rules and prices; 0 where no hole is booked for it.
double bill(const FutureState& f, const BitLife& life, bool blade_sheared) {
  const scenario::Scenario* rules = f.bench_rules(life.design);
  return rules == nullptr ? 0.0 : analysis::bit_bill(*rules, life.condition, blade_sheared).total();
}

double bill_at_end(const FutureState& f, std::size_t bit) {
  const condition::RepairPlan& repair = f.repairs[bit];  // paid for, but not done yet
  if (repair.kind == condition::RepairClass::scrap) return 0.0;
  BitLife life = f.lives[bit];
  if (repair.kind != condition::RepairClass::none) {
    rework(life, f.plan.designs[life.design].bit.layout, repair);
    return bill(f, life, false);
  }
  return bill(f, life, f.blade_sheared[bit]);
}

}  // namespace

FutureLog simulate_future(const ShopPlan& plan, FutureDrill& drill, const Trial& trial) {
  FutureState future{plan, trial, drill.luck(), {}, {}, {}, {}, {}, {}};
  std::vector<std::size_t> design_of;
  for (std::size_t bit = 0; bit < plan.bits.size(); ++bit) future.lives.push_back(life_of(plan, bit));
  if (trial.more_bit) future.lives.push_back(new_life(plan, plan.bits.size(), *trial.more_bit, 0));
  for (const BitLife& life : future.lives) {
    design_of.push_back(life.design);
    future.log.worn -= bill(future, life, false);
  }
  const std::size_t bits = future.lives.size();
  future.blade_sheared.assign(bits, false);
  future.due.assign(bits, false);
  future.repairs.resize(bits);
  future.log.places.resize(bits);
  future.log.metres.assign(bits, 0.0);
  future.log.holes.resize(plan.holes.size());

  BitRack rack(plan, design_of);
  ShopFloor floor(
      future, [&rack](std::size_t bit) { rack.ready(bit); },
      [&rack](int bit) { return rack.needed(static_cast<std::size_t>(bit)); });
  std::vector<std::unique_ptr<RigWork>> rigs;
  for (std::size_t rig = 0; rig < plan.rigs.size(); ++rig)
    rigs.push_back(std::make_unique<RigWork>(future, drill, rack, rig,
                                             [&floor](std::size_t bit) { floor.receive(bit); }));
  for (std::size_t bit = 0; bit < bits; ++bit) {
    const FleetBit* given = bit < plan.bits.size() ? &plan.bits[bit] : nullptr;
    future.log.places[bit].push_back({-never, BitPlace::not_there});
    future.loop.at(given ? given->from : 0.0, [&future, &rack, &floor, &rigs, bit, given] {
      if (given && given->at_rig) {
        rigs[*given->at_rig]->has(bit);
        if (future.loop.now() > 0.0) rigs[*given->at_rig]->go_on();
      } else if (given && given->needs_rework) {
        future.due[bit] = true;
        floor.receive(bit);
      } else {
        future.place(bit, BitPlace::ready);
        rack.ready(bit);
      }
    });
  }
  for (const auto& rig : rigs) future.loop.at(0.0, [&rig] { rig->go_on(); });
  future.loop.run_until(plan.end);
  floor.close();
  for (const auto& rig : rigs) rig->close();
  for (std::size_t bit = 0; bit < bits; ++bit) future.log.worn += bill_at_end(future, bit);
  if (!priced(plan)) {
    FutureLog& log = future.log;
    log.repairs = log.new_bits = log.rigs_waiting = log.worn = log.price_of_new =
        std::numeric_limits<double>::quiet_NaN();
  }
  return std::move(future.log);
}

}  // namespace dullcast::shop
