#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/shop/future_luck.hpp"
#include "engine/shop/shop_plan.hpp"
#include "models/condition/repair.hpp"

namespace dullcast::shop {

/// One bit's way through a future: which it is, what it went through and how it is now. Bits past those of
/// the plan are added ones.
struct BitLife {
  std::size_t bit = 0, design = 0;
  int generation = 0;       // 0, and one more each time that a new bit takes the scrapped one's place
  int reworks = 0;          // of this generation
  int runs = 0;             // since the last of them
  std::vector<long> story;  // what tells its condition from any other in this future
  simulation::BitCondition condition;
};

/// A hole, or what is left of it, drilled by one bit.
struct HoleDrilled {
  simulation::BitCondition after;
  double seconds = 0.0;      // of rig time: drilling, rods, trip
  double due_seconds = 0.0;  // of it until rework fell due, where it did
  double metres = 0.0;
  double depth = 0.0;  // m, reached
  bool finished = false;
  bool blade_sheared = false;
  std::string due;  // the rule under which rework fell due; "failed" where it did not finish; else empty
};

/// Drills holes in one future: the same numbers of the library in every hole, the same luck for the same
/// bit. What was drilled once is known: futures that differ by a bench or a bit drill anew only what then
/// goes otherwise. Used by one thread at a time.
class FutureDrill {
 public:
  /// Keeps the plan, which must outlive it.
  FutureDrill(const ShopPlan& plan, int future);

  const FutureLuck& luck() const { return luck_; }

  /// Lets `life` drill a hole from `from` m on (NaN: from its top) and writes what that made of it into
  /// `life`. A bit in which rework falls due goes on; it comes out unfinished when it stops drilling, breaks
  /// a blade, wears past repair, or, once due, makes less than a quarter of a new bit's progress in its
  /// slowest layer (analysis::patience_share). Throws std::runtime_error, with hole and bit, where a run
  /// fails.
  const HoleDrilled& drill(BitLife& life, std::size_t hole, double from);

  /// Gives back the memory that only more drilling would use.
  void rest() { holes_.clear(); }
  /// Runs of the engine so far.
  long drilled() const { return drilled_; }

 private:
  const scenario::Scenario& in_this_future(std::size_t hole);
  scenario::Scenario ready(const BitLife& life, std::size_t hole, double from);
  HoleDrilled run(const BitLife& life, std::size_t hole, double from);

  const ShopPlan& plan_;
  FutureLuck luck_;
  std::vector<std::unique_ptr<scenario::Scenario>> holes_;  // with this future's numbers
  std::map<std::vector<long>, HoleDrilled> known_;
  long drilled_ = 0;
};

/// A plan's bit, or a new one of a design, at the beginning of a future.
BitLife life_of(const ShopPlan& plan, std::size_t bit);
BitLife new_life(const ShopPlan& plan, std::size_t bit, std::size_t design, int generation);

/// A bit after the repair (analysis::reworked): brazed anew, with luck of its own.
void rework(BitLife& life, const geometry::BitLayout& layout, const condition::RepairPlan& plan);

}  // namespace dullcast::shop
