#include "engine/pages/shop_words.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <numeric>

#include "engine/base/display.hpp"
#include "engine/pages/run_words.hpp"

namespace dullcast::pages {
namespace {

using storage::ShopOutlook;

/// What one more of something changes, mean and error.
struct Difference {
  double late_holes, late_holes_error, late_time, late_time_error, total, total_error;
};

template <class Told>
Difference difference_of(const Told& told) {
  return {told.late_holes_more, told.late_holes_error, told.late_time_more,
          told.late_time_error, told.total_more,       told.total_error};
}

bool any_difference(const Difference& d) {
  return tells(d.late_holes, d.late_holes_error) || tells(d.late_time, d.late_time_error) ||
         tells(d.total, d.total_error);
}

/// A size with two errors, both to the second figure of the latter: "8400 ± 1400 EUR", "1.00 ± 0.17 late
/// holes".
std::string size_and_error(double mean, double error, const std::string& unit) {
  const double two_errors = 2.0 * error, size = std::abs(mean);
  if (!(two_errors > 0.0)) return base::show_number(size, 3) + " \xc2\xb1 0 " + unit;
  const double place = std::pow(10.0, std::floor(std::log10(two_errors)) - 1.0);
  const int decimals = std::clamp(static_cast<int>(-std::lround(std::log10(place))), 0, 9);
  const auto rounded = [&](double value) {
    char text[360];
    std::snprintf(text, sizeof text, "%.*f", decimals, std::round(value / place) * place);
    return std::string(text);
  };
  return rounded(size) + " \xc2\xb1 " + rounded(two_errors) + " " + unit;
}

std::string joined_by_and(const std::vector<std::string>& parts) {
  std::string text;
  for (std::size_t k = 0; k < parts.size(); ++k)
    text += (k == 0 ? "" : k + 1 == parts.size() ? " and " : ", ") + parts[k];
  return text;
}

std::string difference_words(const Difference& d, const std::string& currency) {
  std::vector<std::string> saved, lost;
  const auto add = [&](double mean, double error, double unit, const std::string& words) {
    if (tells(mean, error))
      (mean < 0.0 ? saved : lost).push_back(size_and_error(mean / unit, error / unit, words));
  };
  add(d.late_time, d.late_time_error, 3600.0, "h of rigs standing");
  add(d.late_holes, d.late_holes_error, 1.0, "late holes");
  add(d.total, d.total_error, 1.0, currency);
  if (saved.empty() && lost.empty()) return "makes no difference that these futures can tell";
  std::string text = saved.empty() ? "" : "saves " + joined_by_and(saved);
  if (!lost.empty()) text += (saved.empty() ? "costs " : ", but costs ") + joined_by_and(lost) + " more";
  return text;
}

}  // namespace

bool tells(double mean, double error) {
  return std::isfinite(mean) && std::isfinite(error) && mean != 0.0 && std::abs(mean) >= 2.0 * error;
}

std::string count_words(double count, const std::string& what) {
  const std::string number = base::show_number(count, 2);
  return number + " " + what + (number == "1" ? "" : "s");
}

std::string hours_words(double seconds) {
  return base::show_number(seconds / 3600.0, 2) + " h";
}

std::string clock_words(double seconds) {
  if (!(seconds >= 2.0 * 86400.0)) return hours_words(seconds);
  return base::show_number(seconds / 86400.0, 2) + " days";
}

std::string middle_and_ends(const storage::Spread& spread, std::string (*tell)(double)) {
  if (std::isnan(spread.middle)) return "no future says anything";
  return "middle " + tell(spread.middle) + ", eight futures of ten from " + tell(spread.low) + " to " +
         tell(spread.high);
}

std::string due_rule_words(const std::string& rule) {
  return rule == "failed" ? "it stopped drilling" : spoken(rule);
}

std::string repair_class_words(std::size_t repair_class) {
  static constexpr const char* words[storage::repair_classes] = {"as it is", "new cutters",
                                                                 "pockets built up", "scrapped: a new bit"};
  return repair_class < storage::repair_classes ? words[repair_class] : "";
}

std::string place_words(storage::BitPlace place) {
  switch (place) {
    case storage::BitPlace::ready:
      return "in the shop, ready";
    case storage::BitPlace::at_rig:
      return "at a rig";
    case storage::BitPlace::drilling:
      return "drilling";
    case storage::BitPlace::on_the_road:
      return "on the road";
    case storage::BitPlace::waiting_in_shop:
      return "waiting in the shop";
    case storage::BitPlace::on_a_bench:
      return "on a bench";
    case storage::BitPlace::being_bought:
      return "being bought anew";
    case storage::BitPlace::not_there:
      return "not there yet";
  }
  return "";
}

std::optional<std::size_t> likeliest_bit(const storage::HoleOutlook& hole) {
  const auto most = std::max_element(hole.by_bit.begin(), hole.by_bit.end());
  if (most == hole.by_bit.end() || !(*most > 0.0)) return std::nullopt;
  return static_cast<std::size_t>(most - hole.by_bit.begin());
}

std::vector<std::size_t> busiest_weeks(const ShopOutlook& outlook) {
  double most = 0.0;
  for (const storage::WeekOutlook& week : outlook.weeks) most = std::max(most, week.arrivals.mean);
  std::vector<std::size_t> busy;
  if (!(most > 0.0)) return busy;
  for (std::size_t w = 0; w < outlook.weeks.size(); ++w)
    if (outlook.weeks[w].arrivals.mean >= 0.9 * most) busy.push_back(w);
  constexpr std::size_t told = 3;
  std::stable_sort(busy.begin(), busy.end(), [&](std::size_t a, std::size_t b) {
    return outlook.weeks[a].arrivals.mean > outlook.weeks[b].arrivals.mean;
  });
  busy.resize(std::min(busy.size(), told));
  std::sort(busy.begin(), busy.end());
  return busy;
}

std::string busiest_words(const ShopOutlook& outlook, const ShopClock& clock) {
  std::vector<std::string> days;
  for (const std::size_t w : busiest_weeks(outlook))
    if (const auto day = clock.day(outlook.weeks[w].begin)) days.push_back(short_day(*day));
  if (days.empty()) return "";
  return (days.size() == 1 ? "the week of " : "the weeks of ") + joined_by_and(days);
}

std::string change_name(const storage::ChangeOutlook& change) {
  if (change.kind == "bench") return "one more bench at " + change.name;
  if (change.kind == "bit") return "one more bit (" + change.name + ")";
  return "one more " + change.kind + ": " + change.name;
}

std::vector<std::size_t> best_changes_first(const ShopOutlook& outlook) {
  std::vector<std::size_t> order(outlook.changes.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  const auto rank = [&](std::size_t k) {
    const storage::ChangeOutlook& one = outlook.changes[k];
    if (one.total_more < 0.0 && tells(one.total_more, one.total_error)) return 0;
    if (one.late_time_more < 0.0 && tells(one.late_time_more, one.late_time_error)) return 1;
    return 2;
  };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    if (rank(a) != rank(b)) return rank(a) < rank(b);
    if (rank(a) == 0) return outlook.changes[a].total_more < outlook.changes[b].total_more;
    return rank(a) == 1 && outlook.changes[a].late_time_more < outlook.changes[b].late_time_more;
  });
  return order;
}

bool makes_a_difference(const storage::ChangeOutlook& change) {
  return any_difference(difference_of(change));
}

std::string change_words(const storage::ChangeOutlook& change, const std::string& currency) {
  return difference_words(difference_of(change), currency);
}

std::string pull_words(const storage::EarlyPull& pull, const std::string& currency) {
  return difference_words(difference_of(pull), currency);
}

std::string answer_words(const ShopOutlook& outlook) {
  if (outlook.changes.empty()) return "No change was tried.";
  const std::vector<std::size_t> order = best_changes_first(outlook);
  const storage::ChangeOutlook& best = outlook.changes[order.front()];
  std::string name = change_name(best);
  name.front() = 'O';  // "one more ..."
  const bool saves = (best.total_more < 0.0 && tells(best.total_more, best.total_error)) ||
                     (best.late_time_more < 0.0 && tells(best.late_time_more, best.late_time_error));
  if (saves) return name + " " + change_words(best, outlook.currency) + ", without what it costs itself.";
  if (std::none_of(outlook.changes.begin(), outlook.changes.end(), makes_a_difference))
    return "No: none of the changes that were tried makes a difference that these futures can tell.";
  return "No: none of the changes that were tried saves money or rigs' time, as far as these futures tell.";
}

}  // namespace dullcast::pages
