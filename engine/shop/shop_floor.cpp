#include "engine/shop/shop_floor.hpp"

#include <utility>

#include "engine/analysis/repair_outlook.hpp"

namespace dullcast::shop {
namespace {

using condition::RepairClass;
using storage::BitPlace;

}  // namespace

const scenario::Scenario* FutureState::bench_rules(std::size_t design) const {
  for (const BookedHole& hole : plan.holes) {
    if (hole.design == design) return &hole.scenario;
  }
  return nullptr;
}

condition::RepairPlan FutureState::repair_of(std::size_t bit) const {
  const scenario::Scenario* rules = bench_rules(lives[bit].design);
  if (rules == nullptr || !due[bit]) return {};
  return analysis::repair_when_due(*rules, lives[bit].condition, blade_sheared[bit]);
}

ShopFloor::ShopFloor(FutureState& future, std::function<void(std::size_t)> ready,
                     const BenchQueue::Urgency& urgency)
    : future_(future),
      ready_(std::move(ready)),
      shelf_(future.loop, future.plan.cutters,
             [&future](std::size_t kind, int order) {
               return future.luck.cutters(future.plan.cutters[kind].lead_time, kind, order);
             }),
      visits_(future.lives.size(), 0) {
  const ShopPlan& plan = future.plan;
  for (std::size_t s = 0; s < plan.stations.size(); ++s) {
    const int benches = plan.stations[s].benches + (future.trial.more_bench == s ? 1 : 0);
    const WorkCalendar& open =
        future.trial.more_shift ? plan.changes.with_more_shift.at(s) : plan.stations[s].open;
    benches_.push_back(std::make_unique<BenchQueue>(
        future.loop, benches, open,
        plan.order == QueueOrder::needed_first ? urgency : BenchQueue::Urgency{}));
  }
}

void ShopFloor::receive(std::size_t bit) {
  FutureState& f = future_;
  condition::RepairPlan repair = f.repair_of(bit);
  if (repair.kind == RepairClass::scrap) {
    f.log.new_bits += repair.cost;
  } else if (repair.kind != RepairClass::none) {
    f.log.repairs += repair.cost;
    f.log.price_of_new += analysis::shop_prices(f.bench_rules(f.lives[bit].design)->costs).replacement;
    ++f.log.repairs_done;
  }
  f.log.stays.push_back({bit, f.loop.now(), never, repair.kind});
  f.repairs[bit] = std::move(repair);
  f.place(bit, BitPlace::waiting_in_shop);
  go_on(f.log.stays.size() - 1, 0);
}

double ShopFloor::work_of(std::size_t stay, std::size_t station) const {
  const FutureState& f = future_;
  const std::size_t bit = f.log.stays[stay].bit;
  const condition::RepairPlan& repair = f.repairs[bit];
  const Station& at = f.plan.stations[station];
  const bool repaired =
      repair.kind == RepairClass::replace_cutters || repair.kind == RepairClass::rebuild_pockets;
  const int pieces = !repaired ? 0 : at.works_on == WorksOn::pockets ? repair.pockets : repair.cutters;
  if (at.works_on != WorksOn::every_bit && pieces == 0) return 0.0;
  double work = f.luck.task(at.task, station, bit, visits_[bit]);
  if (at.a_piece) work += pieces * f.luck.piece(*at.a_piece, station, bit, visits_[bit]);
  return work;
}

std::vector<int> ShopFloor::cutters_of(std::size_t bit) const {
  std::vector<int> needed(future_.plan.cutters.size(), 0);
  const scenario::BitRecord& made = future_.plan.designs[future_.lives[bit].design].bit;
  const Eigen::ArrayXi& replaced = future_.repairs[bit].replaced;
  for (Eigen::Index i = 0; i < replaced.size(); ++i) {
    if (!replaced(i)) continue;
    if (const auto kind =
            stock_of(future_.plan.cutters, 2.0 * made.layout.shape(i).radius, made.grade_of(i).name))
      ++needed[*kind];
  }
  return needed;
}

void ShopFloor::go_on(std::size_t stay, std::size_t station) {
  double work = 0.0;
  while (station < benches_.size() && !((work = work_of(stay, station)) > 0.0)) ++station;
  if (station == benches_.size()) return leave(stay);
  const std::size_t bit = future_.log.stays[stay].bit;
  if (!future_.plan.stations[station].takes_cutters) return to_bench(stay, station, work);
  shelf_.take(static_cast<int>(bit), cutters_of(bit),
              [this, stay, station, work] { to_bench(stay, station, work); });
}

void ShopFloor::to_bench(std::size_t stay, std::size_t station, double work) {
  const std::size_t bit = future_.log.stays[stay].bit;
  benches_[station]->arrive(
      static_cast<int>(bit), work, [this, bit] { future_.place(bit, BitPlace::on_a_bench); },
      [this, bit, stay, station] {
        future_.place(bit, BitPlace::waiting_in_shop);
        go_on(stay, station + 1);
      });
}

void ShopFloor::leave(std::size_t stay) {
  FutureState& f = future_;
  const std::size_t bit = f.log.stays[stay].bit;
  BitLife& life = f.lives[bit];
  ++visits_[bit];
  f.due[bit] = f.blade_sheared[bit] = false;
  const condition::RepairPlan repair = std::exchange(f.repairs[bit], {});
  if (repair.kind == RepairClass::scrap) {
    f.place(bit, BitPlace::being_bought);
    life = new_life(f.plan, bit, life.design, life.generation + 1);
    const double lead = f.luck.new_bit(f.plan.designs[life.design].lead_time, bit, life.generation);
    f.loop.at(f.loop.now() + lead, [this, bit] {
      future_.place(bit, BitPlace::ready);
      ready_(bit);
    });
    return;
  }
  if (repair.kind != RepairClass::none) rework(life, f.plan.designs[life.design].bit.layout, repair);
  f.log.stays[stay].ready = f.loop.now();
  f.place(bit, BitPlace::ready);
  ready_(bit);
}

void ShopFloor::close() {
  for (const auto& bench : benches_) future_.log.stations.push_back(bench->visits());
  future_.log.takes = shelf_.takes();
  future_.log.least_cutters = shelf_.least();
}

}  // namespace dullcast::shop
