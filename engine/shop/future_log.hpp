#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "engine/shop/bench_queue.hpp"
#include "engine/shop/cutter_shelf.hpp"
#include "engine/storage/shop_outlook.hpp"
#include "models/condition/repair.hpp"

namespace dullcast::shop {

/// What is not so yet, or never.
inline constexpr Instant never = std::numeric_limits<double>::infinity();

/// A bit taken out after a hole though it is not due.
struct Pull {
  std::size_t bit = 0, after_hole = 0;
  bool operator==(const Pull&) const = default;
};

/// What a future is given beside the plan.
struct Trial {
  std::optional<std::size_t> more_bench;  // of this station
  std::optional<std::size_t> more_bit;    // of this design
  bool more_shift = false;
  std::vector<Pull> pulls;
};

/// A bit's stay in the shop.
struct ShopStay {
  std::size_t bit = 0;
  Instant arrived = 0.0, ready = never;
  condition::RepairClass kind = condition::RepairClass::none;
};

/// The end of a bit's run: rework fell due, it failed, or it was pulled.
struct OutOfHole {
  std::size_t bit = 0, hole = 0;
  Instant at = 0.0;  // that it fell due; where it did not, the hole's end
  std::string why;   // rule, "failed" or "pulled"
  condition::RepairClass kind = condition::RepairClass::none;
};

struct HoleLog {
  std::optional<std::size_t> bit;  // that begins it
  Instant begun = never, finished = never;
  double late = 0.0;         // s of the rig's hours that it stands for want of a bit
  bool begins_late = false;  // by more than late_limit of them
  bool falls_due = false;    // rework, or a bit fails
  int fetched = 0;           // bits that came because one failed
};

/// s of a rig's hours that nobody calls late [asm].
inline constexpr double late_limit = 900.0;

struct PlaceChange {
  Instant at = 0.0;
  storage::BitPlace place = storage::BitPlace::not_there;
};

/// What became of one future up to the plan's end. Bits past those of the plan are added ones.
struct FutureLog {
  std::vector<std::vector<PlaceChange>> places;   // of each bit, in order of time
  std::vector<std::vector<BenchVisit>> stations;  // visits of each
  std::vector<CutterTake> takes;
  std::vector<int> least_cutters;  // of each kind
  std::vector<HoleLog> holes;
  std::vector<ShopStay> stays;
  std::vector<OutOfHole> out;
  std::vector<double> metres;  // m, of each bit
  std::vector<Pull> drilled;   // which bit drilled which hole, in order of time
  // Money; not a number where the plan lacks prices:
  double repairs = 0.0, new_bits = 0.0, rigs_waiting = 0.0, worn = 0.0;
  int repairs_done = 0;
  double price_of_new = 0.0;  // new bits in place of all that came in for repair
  double total() const { return repairs + new_bits + rigs_waiting + worn; }

  int late_holes() const {
    int late = 0;
    for (const HoleLog& hole : holes) late += hole.begins_late ? 1 : 0;
    return late;
  }
  double late_time() const {
    double late = 0.0;
    for (const HoleLog& hole : holes) late += hole.late;
    return late;
  }
};

}  // namespace dullcast::shop
