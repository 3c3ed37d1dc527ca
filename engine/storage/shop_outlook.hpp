#pragma once

#include <array>
#include <string>
#include <vector>

/// What a shop's plan comes to over many futures, as values: written to and read from HDF5 (shop_file.hpp),
/// told by commands and shown by pages. SI; instants are s since the plan's first day began. Rigs, bits,
/// stations, weeks and holes are counted from 0 here and from 1 wherever a person reads them.
namespace dullcast::storage {

/// A value that differs from future to future: mean, and 10 %, 50 % and 90 % points (order statistics, the
/// least value that such a share of the futures reaches). NaN where no future says anything.
struct Spread {
  double mean = 0.0, low = 0.0, middle = 0.0, high = 0.0;
};

/// What the shop does with a bit that came back, as condition::RepairClass counts.
inline constexpr std::size_t repair_classes = 4;  // none, replace_cutters, rebuild_pockets, scrap

struct WeekOutlook {
  double begin = 0.0, end = 0.0;                  // instants, Monday to Monday, local
  Spread arrivals;                                // bits that come into the shop
  std::array<double, repair_classes> by_class{};  // mean, of the arrivals by what is then due
  Spread holes_late;  // holes booked in this week that begin late for want of a bit
};

struct StationWeek {
  Spread work;           // s of bench work done
  double open = 0.0;     // s that its benches are at work, all together
  double waiting = 0.0;  // mean number of bits that wait
};

struct StationOutlook {
  std::string name;
  int benches = 1;
  Spread utilisation;    // 1, bench work over what is open, from begin to end of the plan
  Spread wait;           // s, of all visits in all futures: from arrival to the begin of work, by the clock
  double visits = 0.0;   // mean a future
  double waiting = 0.0;  // bits that wait, mean over time and futures
  std::vector<StationWeek> weeks;  // one a week
};

struct CutterWeek {
  Spread needed;           // new cutters that bits take, or wait for
  double stock_out = 0.0;  // 1, share of futures in which some bit waits for cutters in this week
};

struct CutterOutlook {
  std::string name;
  double diameter = 0.0;  // m
  std::string grade;
  Spread needed;           // in all
  Spread least;            // fewest in the hand
  double stock_out = 0.0;  // 1, share of futures in which a bit waits for cutters at all
  Spread wait;             // s, of the bits that wait for cutters, by the clock; NaN: none did
  std::vector<CutterWeek> weeks;
};

/// Where a bit is. In this order in state_shares.
enum class BitPlace {
  ready,
  at_rig,
  drilling,
  on_the_road,
  waiting_in_shop,
  on_a_bench,
  being_bought,
  not_there
};
inline constexpr std::size_t bit_places = 8;
/// "ready", "at_rig", "drilling", "on_the_road", "waiting_in_shop", "on_a_bench", "being_bought",
/// "not_there".
const char* bit_place_name(BitPlace place);

struct BitOutlook {
  std::string name, design, told_by;
  double due_probability =
      0.0;                  // 1, share of futures in which its rework falls due, or it fails, in the plan
  Spread due;               // instant of the first time, over those futures
  int due_after_hole = -1;  // hole in which that happens most often, index into holes; -1: none
  std::string due_rule;     // rule that does it most often; "failed" where it stopped drilling
  std::array<double, repair_classes> by_class{};  // 1, share of those futures by what the shop then does
  Spread metres;                                  // m that it drills in the plan
  Spread shop_visits;                             // in the plan
  /// 1, for each day of the plan, the share of futures in which it is at each place at noon.
  std::vector<std::array<double, bit_places>> days;
};

struct HoleOutlook {
  std::string name, rig, design;
  double booked = 0.0;            // instant
  double late_probability = 0.0;  // 1, it begins late for want of a bit by more than a quarter of an hour
  Spread late;                 // s of the rig's own hours that it stands for want of a bit, over all futures
  Spread begun, finished;      // instants
  double unfinished = 0.0;     // 1, share of futures in which it is not finished in the plan's time
  double due_in_it = 0.0;      // 1, share of futures in which a bit falls due or fails in it
  double fetched = 0.0;        // bits fetched because one failed, mean
  std::vector<double> by_bit;  // 1, share of futures in which each bit begins it
};

/// Money of one future: what is spent, and what the bits are then worth less than at the beginning.
struct ShopMoney {
  Spread repairs;       // work and cutters of repairs begun
  Spread new_bits;      // in place of scrapped ones
  Spread rigs_waiting;  // rigs that stand for want of a bit
  Spread worn;          // what the bits' condition costs at the end more than at the beginning
  Spread total;
  double repairs_done = 0.0;  // mean
  double repair_mean = 0.0;   // money a repair, mean; NaN: none
  double new_bit = 0.0;       // money for a new bit, mean over those that came in for repair; NaN: none
};

/// One change tried alone in the same futures.
struct ChangeOutlook {
  std::string kind;                                 // "bench", "bit" or "shift"
  std::string name;                                 // of the station, the design, or the shift
  Spread late_holes, late_time, turnaround, total;  // as in ShopOutlook, with it
  // More than without it, mean over futures and its standard error, future by future:
  double late_holes_more = 0.0, late_holes_error = 0.0;
  double late_time_more = 0.0, late_time_error = 0.0;  // s
  double total_more = 0.0, total_error = 0.0;          // money, without what the change itself costs
};

/// A bit called in before it is due.
struct EarlyPull {
  int bit = 0, after_hole = 0;
  double at = 0.0;      // instant, middle over futures, at which it comes out
  double in_use = 0.0;  // 1, share of futures in which there is such a pull: it drilled there and was not due
  // What it changes on top of those before it, in futures that had no part in choosing it:
  double late_holes_more = 0.0, late_holes_error = 0.0;
  double late_time_more = 0.0, late_time_error = 0.0;  // s
  double total_more = 0.0, total_error = 0.0;          // money
};

struct ShopOutlook {
  std::string title, file;
  std::string time_zone, first_day;  // IANA name; ISO 8601
  long long begins = 0;              // s since 1970-01-01 UTC of the first day's first moment, local
  double end = 0.0;                  // instant
  std::string currency;
  int futures = 0;
  int failed = 0;             // futures that could not be run, not among them
  std::string first_failure;  // what the first of those said
  std::string plan_text;      // the plan's files as read, to go on from

  Spread arrivals;    // bits that come into the shop in the plan's time
  Spread turnaround;  // s from arrival to ready, by the clock, of all visits in all futures
  Spread late_holes;  // holes that begin late for want of a bit
  Spread late_time;   // s of rigs' own hours that rigs stand for want of a bit
  ShopMoney money;
  std::vector<WeekOutlook> weeks;
  std::vector<StationOutlook> stations;
  std::vector<CutterOutlook> cutters;
  std::vector<BitOutlook> bits;
  std::vector<HoleOutlook> holes;
  std::vector<ChangeOutlook> changes;
  std::vector<EarlyPull> early_pulls;  // in the order in which each is best on top of those before it
  int pulls_tried = 0;                 // candidates looked at
};

}  // namespace dullcast::storage
