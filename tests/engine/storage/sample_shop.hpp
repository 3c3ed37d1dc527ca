#pragma once

#include <cmath>
#include <cstdio>

#include "engine/storage/sample_outlook.hpp"

namespace dullcast::storage::sample {

inline void tell_stations(const Tally& t, ShopOutlook& shop) {
  for (std::size_t s = 0; s < 5; ++s) {
    StationOutlook one;
    one.name = workers[s].name;
    one.benches = workers[s].benches;
    one.wait = spread_of(t.wait[s]);
    one.visits = static_cast<double>(t.wait[s].size()) / futures;
    std::vector<double> all(futures);
    const double open = one.benches * 40.0 * 3600.0;
    for (std::size_t w = 0; w < weeks; ++w) {
      one.weeks.push_back({spread_of(t.work[s][w]), w == 7 ? open * 0.6 : open, t.waiting[s][w]});
      one.waiting += t.waiting[s][w] / weeks;
      for (std::size_t f = 0; f < futures; ++f) all[f] += t.work[s][w][f] / (open * weeks);
    }
    one.utilisation = spread_of(all);
    shop.stations.push_back(one);
  }
}

inline void tell_cutters(const Tally& t, ShopOutlook& shop) {
  const double none = std::numeric_limits<double>::quiet_NaN();
  for (int k = 0; k < 2; ++k) {
    CutterOutlook one;
    one.name = k == 0 ? "13 mm premium" : "16 mm usual";
    one.diameter = k == 0 ? 0.013 : 0.016;
    one.grade = k == 0 ? "premium" : "usual";
    std::vector<double> all(futures), least(futures, 60.0);
    for (std::size_t w = 0; w < weeks; ++w) {
      std::vector<double> needed = t.cutters[w];
      double out = 0.0;
      for (std::size_t f = 0; f < futures; ++f) {
        needed[f] = std::floor(needed[f] * (k == 0 ? 0.7 : 0.3));
        all[f] += needed[f];
        const double in_hand =
            (k == 0 ? 50.0 : 80.0) + 40.0 * std::floor(static_cast<double>(w) / 7.0) - all[f];
        least[f] = std::min(least[f], std::max(0.0, in_hand));
        out += in_hand < 0.0 ? 1.0 / futures : 0.0;
      }
      one.weeks.push_back({spread_of(needed), out});
      one.stock_out = std::max(one.stock_out, out);
    }
    one.needed = spread_of(all);
    one.least = spread_of(least);
    one.wait = k == 0 ? Spread{6.0 * day, 2.0 * day, 5.0 * day, 12.0 * day} : Spread{none, none, none, none};
    shop.cutters.push_back(one);
  }
}

inline void tell_bits(const Tally& t, ShopOutlook& shop) {
  for (std::size_t b = 0; b < bit_count; ++b) {
    BitOutlook& bit = shop.bits[b];
    const double cases = static_cast<double>(t.due[b].size());
    bit.due_probability = cases / futures;
    bit.due = spread_of(t.due[b]);
    bit.due_after_hole = t.due_hole[b].empty() ? -1 : static_cast<int>(spread_of(t.due_hole[b]).middle);
    bit.due_rule = t.due_hole[b].empty() ? "" : b % 3 == 0 ? "heat_damage" : "worn_height";
    double all = 0.0;
    for (const double one : bit.by_class) all += one;
    for (double& one : bit.by_class) one = all > 0.0 ? one / all : 0.0;
    bit.metres = spread_of(t.metres[b]);
    bit.shop_visits = spread_of(t.visits[b]);
  }
}

inline void tell_holes(const Tally& t, ShopOutlook& shop) {
  for (std::size_t h = 0; h < hole_count; ++h) {
    HoleOutlook hole;
    hole.name = (h % 3 == 2 ? "Ridge " : "Lower Meadow ") + std::to_string(h + 1);
    hole.rig = "rig " + std::to_string(h % rig_count + 1);
    hole.design = h % 3 == 2 ? "six blades" : "four blades";
    hole.booked = (3.0 + 2.1 * static_cast<double>(h)) * day;
    hole.late = spread_of(t.late[h]);
    hole.late_probability = static_cast<double>(std::count_if(t.late[h].begin(), t.late[h].end(),
                                                              [](double s) { return s > 900; })) /
                            futures;
    hole.begun = spread_of(t.begun[h]);
    hole.finished = spread_of(t.finished[h]);
    hole.unfinished = 1.0 - static_cast<double>(t.finished[h].size()) / futures;
    hole.due_in_it = t.due_in[h];
    hole.fetched = t.due_in[h] / 8.0;
    hole.by_bit.assign(t.begins[h], t.begins[h] + bit_count);
    shop.holes.push_back(hole);
  }
}

inline void tell_changes(ShopOutlook& shop) {
  const auto change = [&](const char* kind, const std::string& name, double share, double error) {
    ChangeOutlook one;
    one.kind = kind;
    one.name = name;
    const auto less = [&](Spread s) {
      return Spread{s.mean * (1 - share), s.low * (1 - share), s.middle * (1 - share), s.high * (1 - share)};
    };
    one.late_holes = less(shop.late_holes);
    one.late_time = less(shop.late_time);
    one.turnaround = less(shop.turnaround);
    one.total = less(shop.money.total);
    one.late_holes_more = -share * shop.late_holes.mean;
    one.late_holes_error = error * shop.late_holes.mean;
    one.late_time_more = -share * shop.late_time.mean;
    one.late_time_error = error * shop.late_time.mean;
    one.total_more = -share * shop.money.rigs_waiting.mean;
    one.total_error = error * shop.money.rigs_waiting.mean;
    shop.changes.push_back(one);
  };
  change("bench", "clean and inspect", 0.0, 0.004);
  change("bench", "braze out", 0.01, 0.008);
  change("bench", "build up pockets", 0.07, 0.02);
  change("bench", "braze in", 0.31, 0.03);
  change("bench", "grind and gauge", -0.005, 0.006);
  change("bit", "four blades", 0.42, 0.035);
  change("bit", "six blades", 0.12, 0.025);
  change("shift", "Saturday morning", 0.22, 0.028);
  shop.early_pulls = {{3, 21, 55.0 * day, 0.83, -0.41, 0.09, -21.0 * 3600, 6.0 * 3600, -5200.0, 1500.0},
                      {9, 35, 88.0 * day, 0.6, -0.12, 0.08, -4.0 * 3600, 3.0 * 3600, -700.0, 750.0}};
  shop.pulls_tried = 31;
}

inline ShopOutlook shop() {
  ShopOutlook shop;
  shop.title = "A shop in Lower Meadow, spring and summer";
  shop.file = "lower_meadow_shop.yaml";
  shop.time_zone = "Europe/Berlin";
  shop.first_day = "2031-03-03";
  shop.begins = 1930258800;       // 2031-03-02 23:00 UTC
  shop.end = end * day - 3600.0;  // clocks have gone forward
  shop.currency = "EUR";
  shop.futures = futures;
  shop.failed = 1;
  shop.first_failure = "the bit does not drill at all";
  shop.plan_text = "title: A shop in Lower Meadow\nrigs: []\n";
  for (int b = 0; b < bit_count; ++b) {
    BitOutlook bit;
    char name[16];
    std::snprintf(name, sizeof name, "LM-%d", 101 + b);
    bit.name = name;
    bit.design = b >= 8 ? "six blades" : "four blades";
    bit.told_by = b % 4 == 0 ? "new" : "inspected 2031-02-1" + std::to_string(b % 4);
    bit.days.resize(static_cast<std::size_t>(end));
    shop.bits.push_back(bit);
  }
  Tally tally;
  tally.work.assign(5, Tally::Lists(weeks, std::vector<double>(futures)));
  for (int f = 0; f < futures; ++f) live_through(f, tally, shop.bits);
  shop.arrivals = spread_of(tally.all_arrivals);
  shop.turnaround = spread_of(tally.turnaround);
  shop.late_holes = spread_of(tally.late_holes);
  shop.late_time = spread_of(tally.late_time);
  const auto times = [](const Spread& s, double by) {
    return Spread{s.mean * by, s.low * by, s.middle * by, s.high * by};
  };
  shop.money.repairs = times(shop.arrivals, 1450.0);
  shop.money.new_bits = times(shop.arrivals, 420.0);
  shop.money.rigs_waiting = times(shop.late_time, 250.0 / 3600.0);
  shop.money.worn = {1200.0, -2400.0, 900.0, 5200.0};
  shop.money.total = times(shop.arrivals, 1450.0 + 420.0 + 800.0);
  shop.money.repairs_done = 0.92 * shop.arrivals.mean;
  shop.money.repair_mean = 1576.0;
  shop.money.new_bit = 5250.0;
  for (std::size_t w = 0; w < weeks; ++w) {
    const auto begin = static_cast<double>(w) * 7.0 * day;
    // Clocks go forward on the last Sunday of March, the end of the fourth week.
    const double from = w >= 4 ? begin - 3600.0 : begin,
                 to = w >= 3 ? begin + 7.0 * day - 3600.0 : begin + 7.0 * day;
    WeekOutlook week{from, to, spread_of(tally.arrivals[w]), {}, spread_of(tally.late_week[w])};
    std::copy_n(tally.by_class[w], repair_classes, week.by_class.begin());
    shop.weeks.push_back(week);
  }
  tell_stations(tally, shop);
  tell_cutters(tally, shop);
  tell_bits(tally, shop);
  tell_holes(tally, shop);
  tell_changes(shop);
  return shop;
}

}  // namespace dullcast::storage::sample
