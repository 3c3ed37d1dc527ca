#include "tools/commands/shop_summary.hpp"

#include <algorithm>
#include <ostream>

#include "engine/base/display.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/pages/run_words.hpp"
#include "engine/pages/shop_clock.hpp"
#include "engine/pages/shop_words.hpp"

namespace dullcast::commands {
namespace {

std::string two_figures(double value) {
  return base::show_number(value, 2);
}

void print_stations(std::ostream& out, const storage::ShopOutlook& outlook) {
  const auto fullest =
      std::max_element(outlook.stations.begin(), outlook.stations.end(),
                       [](const auto& a, const auto& b) { return a.utilisation.mean < b.utilisation.mean; });
  if (fullest == outlook.stations.end()) return;
  out << "Fullest station: " << base::plain(fullest->name) << ", at work "
      << pages::percent_words(fullest->utilisation.mean) << " of what is open; "
      << pages::count_words(fullest->waiting, "bit") << " wait there on average.\n";
}

void print_cutters(std::ostream& out, const storage::ShopOutlook& outlook) {
  for (const storage::CutterOutlook& cutter : outlook.cutters) {
    if (!(cutter.stock_out > 0.0)) continue;
    out << "Cutters " << base::plain(cutter.name) << ": a bit waits for them in "
        << pages::percent_words(cutter.stock_out) << " of the futures.\n";
  }
}

}  // namespace

void print_shop_summary(std::ostream& out, const storage::ShopOutlook& outlook) {
  const pages::ShopClock clock(outlook);
  const std::string busiest = pages::busiest_words(outlook, clock);
  out << base::plain(outlook.title) << ": " << clock.day_text(0.0) << " to "
      << clock.day_text(outlook.end - 1.0) << ", " << outlook.futures << " futures (estimates)\n";
  out << "Bits that come in: " << pages::middle_and_ends(outlook.arrivals, two_figures)
      << (busiest.empty() ? "" : "; most in " + busiest) << ".\n";
  out << "Holes that begin late for want of a bit: " << two_figures(outlook.late_holes.mean) << " of "
      << outlook.holes.size() << " on average (" << pages::middle_and_ends(outlook.late_holes, two_figures)
      << "); rigs stand " << pages::hours_words(outlook.late_time.mean) << ".\n";
  out << "From arrival to ready: " << pages::clock_words(outlook.turnaround.middle) << " in the middle, "
      << pages::clock_words(outlook.turnaround.high) << " for one in ten or more.\n";
  print_stations(out, outlook);
  print_cutters(out, outlook);
  out << "Another bench, bit or shift? " << base::plain(pages::answer_words(outlook)) << "\n";
  for (const storage::EarlyPull& pull : outlook.early_pulls) {
    out << "Call in early: "
        << base::plain(outlook.bits.at(static_cast<std::size_t>(pull.bit)).name + " after hole " +
                       outlook.holes.at(static_cast<std::size_t>(pull.after_hole)).name)
        << ", about " << clock.day_text(pull.at) << "; it "
        << base::plain(pages::pull_words(pull, outlook.currency)) << ".\n";
  }
  if (outlook.failed > 0)
    out << pages::count_words(outlook.failed, "future")
        << " could not be run; the first said: " << base::plain(outlook.first_failure) << "\n";
}

}  // namespace dullcast::commands
