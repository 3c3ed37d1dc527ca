#pragma once

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <functional>
#include <limits>
#include <numeric>
#include <string>
#include <vector>

#include "engine/storage/shop_outlook.hpp"

/// A shop's outlook that no engine made, for testing what keeps and shows one: 12 bits of two designs, 80
/// holes of three rigs, five stations, 26 weeks, 200 futures of plain rules and of draws by counter. Nothing
/// of it is measured; only sums and products are used, so that it is the same everywhere.
namespace dullcast::storage::sample {

inline constexpr double day = 86400.0;
inline constexpr int futures = 200, bit_count = 12, hole_count = 80, rig_count = 3, weeks = 26;
inline constexpr double end = 7.0 * weeks;  // days

/// From 0 up to 1, the same for the same three numbers (a mixer of 64 bits with odd constants).
inline double draw(int future, int what, int which) {
  std::uint64_t x = static_cast<std::uint64_t>(future) * 0x9e3779b97f4a7c15u +
                    static_cast<std::uint64_t>(what) * 0xbf58476d1ce4e5b9u +
                    static_cast<std::uint64_t>(which) * 0x94d049bb133111ebu + 1;
  for (int k = 0; k < 3; ++k) x = (x ^ (x >> 29)) * 0xbf58476d1ce4e5b9u;
  return static_cast<double>(x >> 11) / 9007199254740992.0;
}

inline Spread spread_of(std::vector<double> values) {
  const double none = std::numeric_limits<double>::quiet_NaN();
  if (values.empty()) return {none, none, none, none};
  std::sort(values.begin(), values.end());
  const auto at = [&](std::size_t tenths) {
    return values[std::min(values.size() - 1, (tenths * values.size() + 9) / 10 - 1)];
  };
  const double count = static_cast<double>(values.size());
  return {std::accumulate(values.begin(), values.end(), 0.0) / count, at(1), at(5), at(9)};
}

/// What each future comes to, in days, one entry a future.
struct Tally {
  using Lists = std::vector<std::vector<double>>;
  Lists due{bit_count}, due_hole{bit_count}, metres{bit_count}, visits{bit_count};
  Lists begun{hole_count}, finished{hole_count}, late{hole_count};
  std::vector<std::vector<std::vector<double>>> work;  // station, week, future: days
  Lists arrivals = Lists(weeks, std::vector<double>(futures)), late_week = arrivals, cutters = arrivals;
  Lists wait{5};
  std::vector<double> turnaround, all_arrivals, late_holes, late_time;
  double by_class[weeks][repair_classes] = {};
  double waiting[5][weeks] = {};
  double begins[hole_count][bit_count] = {}, due_in[hole_count] = {};
};

struct Worker {
  const char* name;
  int benches;
  double task, piece;  // days
};
inline constexpr Worker workers[5] = {{"clean and inspect", 1, 0.4, 0.0},
                                      {"braze out", 1, 0.5, 0.1},
                                      {"build up pockets", 1, 4.0, 0.6},
                                      {"braze in", 1, 2.2, 0.36},
                                      {"grind and gauge", 2, 1.2, 0.05}};

inline int week_of(double days) {
  return std::clamp(static_cast<int>(days / 7.0), 0, weeks - 1);
}

/// One future: rigs drill their holes in turn with the first bit that is there; a bit that is due goes
/// through the stations, first come first served.
inline void live_through(int f, Tally& t, std::vector<BitOutlook>& bits) {
  double free_at[bit_count] = {}, rig_free[rig_count] = {}, bench_free[5][2] = {};
  int left[bit_count], at_rig[bit_count];
  for (int b = 0; b < bit_count; ++b) {
    left[b] = 1 + b / 4 + static_cast<int>(2.5 * draw(f, 1, b));
    at_rig[b] = -1;
    t.visits[static_cast<std::size_t>(b)].push_back(0.0);
    t.metres[static_cast<std::size_t>(b)].push_back(0.0);
  }
  std::vector<std::pair<double, BitPlace>> course[bit_count];
  for (auto& one : course) one = {{0.0, BitPlace::ready}};
  double arrived = 0.0, late_holes = 0.0, late_time = 0.0;
  for (int h = 0; h < hole_count; ++h) {
    const int rig = h % rig_count, design = rig == 2 ? 1 : 0;
    const double booked = 3.0 + 2.1 * h, ready = std::max(booked, rig_free[rig]);
    int best = -1;
    for (int b = 0; b < bit_count; ++b) {
      const bool fits = (b >= 8) == (design == 1);
      const double there = at_rig[b] == rig ? free_at[b] - 1.0 : free_at[b];
      if (fits && (best < 0 || there < (at_rig[best] == rig ? free_at[best] - 1.0 : free_at[best]))) best = b;
    }
    const auto bit = static_cast<std::size_t>(best), hole = static_cast<std::size_t>(h);
    const double begin = std::max(ready, free_at[best]), late = begin - ready;
    const double over = begin + 2.5 + 2.5 * draw(f, 2, h);
    late_holes += late > 0.25 / 24.0 ? 1.0 : 0.0;
    late_time += late;
    t.late[hole].push_back(late * day / 2.4);
    t.late_week[static_cast<std::size_t>(week_of(booked))][static_cast<std::size_t>(f)] += late > 0.0;
    t.begun[hole].push_back(begin * day);
    if (over <= end) t.finished[hole].push_back(over * day);
    t.begins[h][best] += 1.0 / futures;
    t.metres[bit].back() += 60.0 + 10.0 * (h % 4);
    if (at_rig[best] != rig && begin - 0.5 > course[best].back().first)
      course[best].emplace_back(begin - 0.5, BitPlace::on_the_road);
    course[best].emplace_back(begin, BitPlace::drilling);
    rig_free[rig] = over;
    at_rig[best] = rig;
    free_at[best] = over;
    course[best].emplace_back(over, BitPlace::at_rig);
    if (--left[best] > 0) continue;
    if (t.visits[bit].back() == 0.0) {
      t.due[bit].push_back(over * day);
      t.due_hole[bit].push_back(h);
    }
    t.due_in[h] += 1.0 / futures;
    t.visits[bit].back() += 1.0;
    arrived += 1.0;
    left[best] = 1 + static_cast<int>(2.6 * draw(f, 4, h));
    at_rig[best] = -1;
    course[best].emplace_back(over, BitPlace::on_the_road);
    const double lot = draw(f, 3, h), arrival = over + 1.0;
    const int what = lot < 0.08 ? 3 : lot < 0.3 ? 2 : 1, cutters = 2 + static_cast<int>(9.0 * draw(f, 5, h));
    if (arrival < end) {
      t.arrivals[static_cast<std::size_t>(week_of(arrival))][static_cast<std::size_t>(f)] += 1.0;
      t.by_class[week_of(arrival)][what] += 1.0 / futures;
      t.cutters[static_cast<std::size_t>(week_of(arrival))][static_cast<std::size_t>(f)] += cutters;
      bits[bit].by_class[static_cast<std::size_t>(what)] += 1.0;
    }
    double now = arrival;
    for (int s = 0; s < 5 && (what != 3 || s == 0); ++s) {
      if (s == 2 && what != 2) continue;
      const Worker& worker = workers[s];
      double& bench =
          worker.benches == 2 && bench_free[s][1] < bench_free[s][0] ? bench_free[s][1] : bench_free[s][0];
      const double from = std::max(now, bench), work = worker.task + worker.piece * cutters;
      course[best].emplace_back(now, BitPlace::waiting_in_shop);
      course[best].emplace_back(from, BitPlace::on_a_bench);
      t.wait[static_cast<std::size_t>(s)].push_back((from - now) * day);
      for (double d = now; d < std::min(from, end); d += 0.5) t.waiting[s][week_of(d)] += 0.5 / 7.0 / futures;
      bench = now = from + work;
      if (from < end)
        t.work[static_cast<std::size_t>(s)][static_cast<std::size_t>(week_of(from))]
              [static_cast<std::size_t>(f)] += work * day / 3.0;
    }
    if (what == 3) {
      course[best].emplace_back(now, BitPlace::being_bought);
      now += 30.0;
    } else {
      t.turnaround.push_back((now - arrival) * day);
    }
    course[best].emplace_back(now, BitPlace::ready);
    free_at[best] = now + 0.5;
  }
  t.all_arrivals.push_back(arrived);
  t.late_holes.push_back(late_holes);
  t.late_time.push_back(late_time * day / 2.4);
  for (int b = 0; b < bit_count; ++b) {
    std::size_t at = 0;
    for (int d = 0; d < static_cast<int>(end); ++d) {
      while (at + 1 < course[b].size() && course[b][at + 1].first <= d + 0.5) ++at;
      bits[static_cast<std::size_t>(b)]
          .days[static_cast<std::size_t>(d)][static_cast<std::size_t>(course[b][at].second)] += 1.0 / futures;
    }
  }
}

}  // namespace dullcast::storage::sample
