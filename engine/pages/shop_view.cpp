#include "engine/pages/shop_view.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/display.hpp"
#include "engine/pages/json_parts.hpp"
#include "engine/pages/page_words.hpp"
#include "engine/pages/run_words.hpp"
#include "engine/pages/shop_clock.hpp"
#include "engine/pages/shop_words.hpp"

namespace dullcast::pages {
namespace {

using nlohmann::json;
using storage::ShopOutlook;
using storage::Spread;

json spread_json(const Spread& spread) {
  return {{"mean", number(spread.mean)},
          {"low", number(spread.low)},
          {"middle", number(spread.middle)},
          {"high", number(spread.high)}};
}

/// One entry a row, by what `of` says of each.
template <class Row, class Of>
json listed(const std::vector<Row>& rows, const Of& of) {
  json all = json::array();
  for (const Row& row : rows) all.push_back(of(row));
  return all;
}

template <class Row>
json spreads_json(const std::vector<Row>& rows, Spread Row::*member) {
  const auto part = [&](double Spread::*which) {
    return listed(rows, [&](const Row& row) { return number(row.*member.*which); });
  };
  return {{"mean", part(&Spread::mean)},
          {"low", part(&Spread::low)},
          {"middle", part(&Spread::middle)},
          {"high", part(&Spread::high)}};
}

json when_json(const ShopClock& clock, double instant) {
  const auto day = clock.day(instant);
  if (!day) return nullptr;
  return {{"text", base::day_text(*day)},
          {"minute", clock.minute_text(instant)},
          {"short", short_day(*day)},
          {"day", number(clock.days(instant))}};
}

json ends_json(const ShopClock& clock, const Spread& spread) {
  return {{"low", when_json(clock, spread.low)},
          {"middle", when_json(clock, spread.middle)},
          {"high", when_json(clock, spread.high)}};
}

template <class Told>
json difference_json(const Told& told) {
  return {{"late_holes", number(told.late_holes_more)},
          {"late_holes_error", number(told.late_holes_error)},
          {"late_holes_tells", tells(told.late_holes_more, told.late_holes_error)},
          {"late_time", number(told.late_time_more)},
          {"late_time_error", number(told.late_time_error)},
          {"late_time_tells", tells(told.late_time_more, told.late_time_error)},
          {"total", number(told.total_more)},
          {"total_error", number(told.total_error)},
          {"total_tells", tells(told.total_more, told.total_error)}};
}

std::string plain_count(double value) {
  return base::show_number(value, 2);
}

json headline_json(const ShopOutlook& outlook, const ShopClock& clock) {
  const std::string holes = std::to_string(outlook.holes.size());
  return {{"arrivals", count_words(outlook.arrivals.middle, "bit")},
          {"arrivals_ends", middle_and_ends(outlook.arrivals, plain_count)},
          {"busiest", busiest_words(outlook, clock)},
          {"late", base::show_number(outlook.late_holes.mean, 2) + " of " + holes},
          {"late_ends", middle_and_ends(outlook.late_holes, plain_count)},
          {"standing", hours_words(outlook.late_time.mean)},
          {"turnaround", clock_words(outlook.turnaround.middle)},
          {"turnaround_high", clock_words(outlook.turnaround.high)},
          {"answer", answer_words(outlook)}};
}

/// Days of the plan with the months that begin in them.
void add_days(json& view, const ShopOutlook& outlook, const ShopClock& clock) {
  std::size_t count = 0;
  for (const storage::BitOutlook& bit : outlook.bits) count = std::max(count, bit.days.size());
  json days = json::array(), months = json::array();
  for (std::size_t k = 0; k < count; ++k) {
    const base::CivilDay day{clock.first_day().number + static_cast<std::int64_t>(k)};
    const base::CalendarDate its = base::calendar_date(day);
    days.push_back(
        {{"date", base::day_text(day)}, {"short", short_day(day)}, {"weekday", base::weekday(day)}});
    if (k == 0 || its.day == 1)
      months.push_back({{"day", k}, {"name", month_name(its.month) + " " + std::to_string(its.year)}});
  }
  view["days"] = std::move(days);
  view["months"] = std::move(months);
}

json weeks_json(const ShopOutlook& outlook, const ShopClock& clock) {
  json by_class = json::array();
  for (std::size_t c = 0; c < storage::repair_classes; ++c)
    by_class.push_back(
        listed(outlook.weeks, [&](const storage::WeekOutlook& week) { return number(week.by_class[c]); }));
  return {{"begin", listed(outlook.weeks,
                           [&](const storage::WeekOutlook& week) { return when_json(clock, week.begin); })},
          {"arrivals", spreads_json(outlook.weeks, &storage::WeekOutlook::arrivals)},
          {"holes_late", spreads_json(outlook.weeks, &storage::WeekOutlook::holes_late)},
          {"by_class", std::move(by_class)}};
}

json station_json(const storage::StationOutlook& station) {
  return {{"name", station.name},
          {"benches", station.benches},
          {"utilisation", spread_json(station.utilisation)},
          {"wait", spread_json(station.wait)},
          {"visits", number(station.visits)},
          {"waiting", number(station.waiting)},
          {"work", spreads_json(station.weeks, &storage::StationWeek::work)},
          {"open", listed(station.weeks, [](const auto& week) { return number(week.open); })},
          {"waiting_by_week", listed(station.weeks, [](const auto& week) { return number(week.waiting); })}};
}

json cutter_json(const storage::CutterOutlook& cutter) {
  return {
      {"name", cutter.name},
      {"grade", cutter.grade},
      {"diameter", number(cutter.diameter)},
      {"needed", spread_json(cutter.needed)},
      {"least", spread_json(cutter.least)},
      {"stock_out", number(cutter.stock_out)},
      {"wait", spread_json(cutter.wait)},
      {"weekly", spreads_json(cutter.weeks, &storage::CutterWeek::needed)},
      {"stock_out_by_week", listed(cutter.weeks, [](const auto& week) { return number(week.stock_out); })}};
}

json shares_json(const std::array<double, storage::repair_classes>& shares) {
  json all = json::array();
  for (const double share : shares) all.push_back(number(share));
  return all;
}

json fleet_json(const ShopOutlook& outlook, const ShopClock& clock) {
  return listed(outlook.bits, [&](const storage::BitOutlook& bit) -> json {
    json days = json::array();
    for (const auto& day : bit.days) {
      json shares = json::array();
      for (const double share : day)
        shares.push_back(std::isfinite(share) ? std::lround(1000.0 * std::clamp(share, 0.0, 1.0)) : 0);
      days.push_back(std::move(shares));
    }
    return {{"name", bit.name},
            {"design", bit.design},
            {"told_by", bit.told_by},
            {"due_probability", number(bit.due_probability)},
            {"due", ends_json(clock, bit.due)},
            {"after_hole", bit.due_after_hole < 0
                               ? json(nullptr)
                               : json(outlook.holes.at(static_cast<std::size_t>(bit.due_after_hole)).name)},
            {"rule", due_rule_words(bit.due_rule)},
            {"by_class", shares_json(bit.by_class)},
            {"metres", spread_json(bit.metres)},
            {"visits", spread_json(bit.shop_visits)},
            {"days", std::move(days)}};
  });
}

json booked_json(const ShopOutlook& outlook, const ShopClock& clock) {
  json all = json::array();
  for (const storage::HoleOutlook& hole : outlook.holes) {
    json likeliest = nullptr;
    if (const auto bit = likeliest_bit(hole))
      likeliest = {{"bit", outlook.bits.at(*bit).name}, {"share", number(hole.by_bit[*bit])}};
    all.push_back({{"number", all.size() + 1},
                   {"name", hole.name},
                   {"rig", hole.rig},
                   {"design", hole.design},
                   {"booked", when_json(clock, hole.booked)},
                   {"late_probability", number(hole.late_probability)},
                   {"late", spread_json(hole.late)},
                   {"begun", ends_json(clock, hole.begun)},
                   {"finished", ends_json(clock, hole.finished)},
                   {"unfinished", number(hole.unfinished)},
                   {"due_in_it", number(hole.due_in_it)},
                   {"fetched", number(hole.fetched)},
                   {"likeliest", std::move(likeliest)}});
  }
  return all;
}

json changes_json(const ShopOutlook& outlook) {
  return listed(best_changes_first(outlook), [&](std::size_t k) -> json {
    const storage::ChangeOutlook& change = outlook.changes[k];
    const bool saves = (change.total_more < 0.0 && tells(change.total_more, change.total_error)) ||
                       (change.late_time_more < 0.0 && tells(change.late_time_more, change.late_time_error));
    return {{"kind", change.kind},
            {"name", change.name},
            {"what", change_name(change)},
            {"words", change_words(change, outlook.currency)},
            {"tells", makes_a_difference(change)},
            {"saves", saves},
            {"more", difference_json(change)},
            {"late_holes", spread_json(change.late_holes)},
            {"late_time", spread_json(change.late_time)},
            {"turnaround", spread_json(change.turnaround)},
            {"total", spread_json(change.total)}};
  });
}

json pulls_json(const ShopOutlook& outlook, const ShopClock& clock) {
  return listed(outlook.early_pulls, [&](const storage::EarlyPull& pull) -> json {
    const std::string words = pull_words(pull, outlook.currency);
    return {{"bit", outlook.bits.at(static_cast<std::size_t>(pull.bit)).name},
            {"after_hole", outlook.holes.at(static_cast<std::size_t>(pull.after_hole)).name},
            {"at", when_json(clock, pull.at)},
            {"in_use", number(pull.in_use)},
            {"words", words},
            {"more", difference_json(pull)}};
  });
}

json places_json() {
  json all = json::array();
  for (std::size_t k = 0; k < storage::bit_places; ++k) {
    const auto place = static_cast<storage::BitPlace>(k);
    all.push_back({{"name", storage::bit_place_name(place)}, {"words", place_words(place)}});
  }
  return all;
}

std::vector<std::string> shop_estimate_words(const ShopOutlook& outlook) {
  std::vector<std::string> all = {"All figures are estimates from a model, drawn over " +
                                  std::to_string(outlook.futures) + " futures."};
  if (outlook.failed > 0)
    all.push_back("Futures that could not be run, and are left out: " + std::to_string(outlook.failed) +
                  "; the first said: " + outlook.first_failure);
  all.emplace_back(
      "Middle: half of the futures stay below it. Low and high: one future in ten stays below, one above.");
  all.emplace_back(
      "What a change saves is told future by future; \xc2\xb1 is two standard errors of that mean. It says "
      "nothing of what the model has wrong.");
  all.emplace_back(
      "Unless inspected bits were learnt from, how fast diamond wears is known to a factor of three either "
      "way.");
  all.emplace_back("Bench times, lead times and holes are as the plan says them.");
  return all;
}

}  // namespace

nlohmann::json shop_view(const ShopOutlook& outlook, const RunViewOptions& options) {
  const ShopClock clock(outlook);
  json classes = json::array();
  for (std::size_t c = 0; c < storage::repair_classes; ++c) classes.push_back(repair_class_words(c));
  const storage::ShopMoney& money = outlook.money;
  json view = {{"format", {shop_view_major, shop_view_minor}},
               {"name", options.name},
               {"title", outlook.title},
               {"made_by", options.made_by},
               {"units", units_word(options.units)},
               {"file", outlook.file},
               {"currency", outlook.currency},
               {"futures", outlook.futures},
               {"failed", outlook.failed},
               {"first_failure", outlook.first_failure},
               {"time_zone", outlook.time_zone},
               {"first_day", clock.day_text(0.0)},
               {"last_day", clock.day_text(outlook.end - 1.0)},
               {"headline", headline_json(outlook, clock)},
               {"places", places_json()},
               {"classes", std::move(classes)},
               {"arrivals", spread_json(outlook.arrivals)},
               {"turnaround", spread_json(outlook.turnaround)},
               {"late_holes", spread_json(outlook.late_holes)},
               {"late_time", spread_json(outlook.late_time)},
               {"weeks", weeks_json(outlook, clock)},
               {"stations", listed(outlook.stations, station_json)},
               {"cutters", listed(outlook.cutters, cutter_json)},
               {"bits", fleet_json(outlook, clock)},
               {"holes", booked_json(outlook, clock)},
               {"changes", changes_json(outlook)},
               {"early_pulls", pulls_json(outlook, clock)},
               {"pulls_tried", outlook.pulls_tried},
               {"money",
                {{"repairs", spread_json(money.repairs)},
                 {"new_bits", spread_json(money.new_bits)},
                 {"rigs_waiting", spread_json(money.rigs_waiting)},
                 {"worn", spread_json(money.worn)},
                 {"total", spread_json(money.total)},
                 {"repairs_done", number(money.repairs_done)},
                 {"repair_mean", number(money.repair_mean)},
                 {"new_bit", number(money.new_bit)}}},
               {"estimates", shop_estimate_words(outlook)},
               {"cautions", caution_words()}};
  add_days(view, outlook, clock);
  return view;
}

}  // namespace dullcast::pages
