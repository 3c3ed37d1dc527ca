#pragma once

#include <nlohmann/json_fwd.hpp>

#include "engine/pages/run_view.hpp"
#include "engine/storage/shop_outlook.hpp"

namespace dullcast::pages {

/// The version of what shop_view gives.
inline constexpr int shop_view_major = 1, shop_view_minor = 0;

/// A shop's outlook as pages show it, one JSON object: numbers and words as in run_view, SI, money, null
/// where nothing is known. Dates are local texts. SPREAD is {mean, low, middle, high} (10 %, 50 %, 90 %
/// points over the futures); SPREADS the same with an array each, one entry a week. WHEN is null or {text
/// ("2031-11-03"), minute ("2031-11-03 07:00"), short ("3 Nov"), day (days since the plan's first day began,
/// as the clock shows them)}. DIFFERENCE is {late_holes, late_time (s), total (money), each with *_error (its
/// standard error) and *_tells (whether the mean is two errors or more from nothing)}, less than 0 where it
/// saves.
///
///   format, name, title, made_by, units
///   file, currency, futures, failed, first_failure, time_zone, first_day, last_day TEXT
///   headline    what it comes to, TEXT: arrivals, arrivals_ends, busiest (weeks; "" for none), late (holes
///               that begin late, of how many), late_ends, standing, turnaround (middle), turnaround_high,
///               answer (another bench, bit or shift)
///   days        [{date, short TEXT, weekday (1 Monday to 7)}], one a day of the plan
///   months      [{day (its first in the plan, from 0), name TEXT}]
///   places      [{name, words TEXT}]: where a bit is, as in bits.days
///   classes     [TEXT]: what the shop does with a bit, as in by_class
///   arrivals, turnaround (s), late_holes, late_time (s)  SPREAD, of all futures
///   weeks       {begin [WHEN], arrivals SPREADS, holes_late SPREADS, by_class: one array a class, mean bits
///               a week}
///   stations    [{name, benches, utilisation SPREAD, wait SPREAD (s), visits, waiting, work SPREADS (s a
///               week), open [s a week], waiting_by_week [mean bits]}]
///   cutters     [{name, grade, diameter, needed SPREAD, least SPREAD, stock_out, wait SPREAD (s), weekly
///               SPREADS, stock_out_by_week}]
///   bits        [{name, design, told_by, due_probability, due: {low, middle, high WHEN}, after_hole TEXT or
///               null, rule TEXT, by_class [share], metres, visits SPREAD, days: for each day the thousandths
///               of futures at each place}]
///   holes       [{number, name, rig, design, booked WHEN, late_probability, late SPREAD (s), begun,
///               finished: {low, middle, high WHEN}, unfinished, due_in_it, fetched, likeliest: {bit TEXT,
///               share} or null}]
///   changes     the best first: [{kind, name, what, words TEXT, tells (any difference), saves, more
///               DIFFERENCE, late_holes, late_time, turnaround, total SPREAD (with it)}]
///   early_pulls [{bit, after_hole, words TEXT, at WHEN, in_use, more DIFFERENCE}]; pulls_tried
///   money       {repairs, new_bits, rigs_waiting, worn, total SPREAD, repairs_done, repair_mean, new_bit}
///   estimates, cautions [TEXT]
///
/// Throws what ShopClock throws.
nlohmann::json shop_view(const storage::ShopOutlook& outlook, const RunViewOptions& options);

}  // namespace dullcast::pages
