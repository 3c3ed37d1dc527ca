#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/shop/work_calendar.hpp"
#include "engine/simulation/outcome.hpp"
#include "engine/statistics/distribution.hpp"

/// A shop's plan as a value: its benches and cutters, the rigs, the bits there are and the holes that are
/// booked. Read by read_shop_plan (shop_plan_reader.hpp). SI; instants count from the plan's first day.
namespace dullcast::shop {

/// A time that is not known exactly, s: its 10 %, 50 % and 90 % points, or one value.
using Duration = statistics::Distribution;

/// What a station works on; a bit that has none of it goes past the station.
enum class WorksOn { every_bit, cutters, pockets };

/// One kind of work in the shop, in the order in which bits pass.
struct Station {
  std::string name;
  int benches = 1;
  WorksOn works_on = WorksOn::every_bit;
  Duration task;                    // s of work on one bit
  std::optional<Duration> a_piece;  // s more for each cutter, or pocket, that it works on
  bool takes_cutters = false;       // begins only once the new cutters are in the hand
  WorkCalendar open;
};

/// Who is taken first of the bits that wait at a station.
enum class QueueOrder {
  first_come,
  needed_first  // the bit whose design is booked soonest and without a bit
};

/// New cutters of one kind on the shelf. When those in the hand and on order, less those that bits wait for,
/// come down to `reorder_at`, `order` more are ordered.
struct CutterStock {
  std::string name;
  double diameter = 0.0;  // m
  std::string grade;      // its name in the library
  int on_hand = 0;
  int reorder_at = 0;
  int order = 0;       // 0: nothing is ever ordered
  Duration lead_time;  // s, by the clock
};

/// The kind of stock that new cutters of that diameter (m; within less than makers' lists differ by) and
/// grade come from; none where the plan has none: they never run out.
std::optional<std::size_t> stock_of(const std::vector<CutterStock>& kinds, double diameter,
                                    const std::string& grade);

struct Rig {
  std::string name;
  WorkCalendar open;
  double travel = 0.0;      // s, by the clock, of a bit between the shop and the rig, either way
  double asks_ahead = 0.0;  // s before a hole's booked start at which its bit is asked for
};

/// A make of bit. Bits of one design stand in for each other.
struct Design {
  std::string name;
  scenario::BitRecord bit;  // new
  Duration lead_time;       // s, by the clock, of a new bit
};

/// A bit that the shop has, as it is at the beginning.
struct FleetBit {
  std::string name;
  std::size_t design = 0;
  std::optional<std::size_t> at_rig;  // none: in the shop
  Instant from = 0.0;                 // not to be had before
  bool needs_rework = false;          // in the shop, to be reworked before it goes out again
  simulation::BitCondition condition;
  std::string told_by;  // how its condition is known, in words: "new", "inspected 2031-10-28", a file's name
};

struct BookedHole {
  std::string name;
  std::size_t rig = 0;
  Instant booked = 0.0;  // when it is to begin
  std::size_t design = 0;
  std::optional<std::size_t> bit;  // only this one will do
  /// Column, settings, fluid, rules and prices; its bit is the design's, new. One hole, no rows.
  scenario::Scenario scenario;
  scenario::Location location;
};

/// What the plan would like to know beside what happens as things stand: each is tried alone.
struct Changes {
  bool one_more_bench = true;  // at each station
  bool one_more_bit = true;    // of each design, new, in the shop from the first day
  /// Name and calendar: shifts added to what every station works.
  std::optional<std::string> more_shift;
  std::vector<WorkCalendar> with_more_shift;  // one a station
};

/// A file that a plan is written in: itself, a table, a scenario, a shelf.
struct PlanText {
  std::string file, text;
};

struct ShopPlan {
  std::string title, file;
  std::string time_zone;  // IANA name
  std::string first_day;  // ISO 8601, local: instant 0 is its first moment
  long long begins = 0;   // s since 1970-01-01 UTC of that
  Instant end = 0.0;      // of what is looked at; holes booked later are not in the plan
  std::vector<Instant>
      weeks;  // begins of Mondays, local, from the one on or before 0 to the one on or after end
  int futures = 200;
  std::int64_t seed = 1;
  QueueOrder order = QueueOrder::first_come;
  std::vector<Station> stations;
  std::vector<CutterStock> cutters;
  std::vector<Rig> rigs;
  std::vector<Design> designs;
  std::vector<FleetBit> bits;
  std::vector<BookedHole> holes;  // by booked start
  Changes changes;
  int early_pulls = 3;          // sought, at most
  std::string currency = "$";   // of all money in the scenarios
  std::vector<PlanText> texts;  // as read, the plan itself first
};

}  // namespace dullcast::shop
