#include "tools/commands/shop_report.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/plain_text.hpp"
#include "engine/pages/shop_clock.hpp"
#include "engine/pages/shop_words.hpp"

namespace dullcast::commands {
namespace {

using storage::ShopOutlook;
using storage::Spread;

constexpr double hour = 3600.0;

std::string number(double value, int digits = 2) {
  return base::show_number(value, digits);
}

/// "34 (29 to 40)": the middle of the futures and their 10 % and 90 % points.
std::string spread_words(const Spread& spread, double unit, int digits = 2) {
  return number(spread.middle / unit, digits) + " (" + number(spread.low / unit, digits) + " to " +
         number(spread.high / unit, digits) + ")";
}

/// A time by the clock, or that nobody waits.
std::string time_words(double seconds) {
  return std::isnan(seconds) ? "-" : pages::clock_words(seconds);
}

/// "-3.2 ± 0.8", two standard errors, or that these futures cannot tell.
std::string difference(double more, double error, double unit) {
  if (std::isnan(more)) return "not known";
  if (!pages::tells(more, error)) return "no difference";
  return (more > 0.0 ? "+" : "-") + number(std::abs(more) / unit) + " \xc2\xb1 " +
         number(2.0 * error / unit, 1);
}

class ShopReport {
 public:
  ShopReport(const Sheet& sheet, const ShopOutlook& shop) : sheet_(sheet), shop_(shop), clock_(shop) {}

  void answer() const {
    sheet_.heading(base::plain(shop_.title) + ": " + shop_.first_day + " to " + date(shop_.end - 1.0) + ", " +
                   std::to_string(shop_.futures) + " futures");
    if (shop_.failed > 0)
      sheet_.line("left out",
                  std::to_string(shop_.failed) +
                      " futures that could not be run; the first one said: " + shop_.first_failure);
    const std::string busiest = pages::busiest_words(shop_, clock_);
    sheet_.line("bits come in",
                spread_words(shop_.arrivals, 1.0) + (busiest.empty() ? "" : ", most in " + busiest));
    sheet_.line("rework takes", "half of the bits " + time_words(shop_.turnaround.middle) +
                                    " or less from arrival to ready, nine in ten " +
                                    time_words(shop_.turnaround.high));
    sheet_.line("holes late", number(shop_.late_holes.mean) + " of " + std::to_string(shop_.holes.size()) +
                                  " begin late for want of a bit (" + number(shop_.late_holes.low) + " to " +
                                  number(shop_.late_holes.high) + "); rigs stand " +
                                  number(shop_.late_time.mean / hour) + " h for it (" +
                                  number(shop_.late_time.low / hour) + " to " +
                                  number(shop_.late_time.high / hour) + ")");
    if (!shop_.changes.empty()) sheet_.line("one more?", pages::answer_words(shop_));
    early();
    if (!std::isnan(shop_.money.total.mean))
      sheet_.line("money", money(shop_.money.total.mean) +
                               " in the mean for repairs, new bits, rigs that wait and wear (" +
                               money(shop_.money.total.low) + " to " + money(shop_.money.total.high) + ")");
    sheet_.line("",
                "Estimates from what is booked now, brackets 10 % to 90 %; inspect each bit that comes in.");
  }

  void changes() const {
    if (shop_.changes.empty()) return;
    sheet_.heading(
        "\nWhat one more would change, in the mean of the same futures (without what it costs itself)");
    const std::vector<int> widths{40, 20, 24, 22};
    sheet_.row({"", "holes late", "rigs stand, h", "money, " + shop_.currency}, widths);
    for (const storage::ChangeOutlook& change : shop_.changes)
      sheet_.row(
          {pages::change_name(change), difference(change.late_holes_more, change.late_holes_error, 1.0),
           difference(change.late_time_more, change.late_time_error, hour),
           difference(change.total_more, change.total_error, 1.0)},
          widths);
  }

  void benches() const {
    sheet_.heading("\nBenches");
    const std::vector<int> widths{24, 10, 20, 22, 20, 12};
    sheet_.row({"", "benches", "used of their time", "busiest week", "wait, middle", "90 %"}, widths);
    for (const storage::StationOutlook& station : shop_.stations) {
      const auto load = [](const storage::StationWeek& week) {
        return week.open > 0.0 ? week.work.mean / week.open : 0.0;
      };
      const auto busiest = std::max_element(station.weeks.begin(), station.weeks.end(),
                                            [&](const auto& a, const auto& b) { return load(a) < load(b); });
      std::string week = "-";
      if (busiest != station.weeks.end())
        week = date(shop_.weeks[static_cast<std::size_t>(busiest - station.weeks.begin())].begin) + ", " +
               percent_words(load(*busiest));
      sheet_.row({station.name, std::to_string(station.benches), percent_words(station.utilisation.mean),
                  week, time_words(station.wait.middle), time_words(station.wait.high)},
                 widths);
    }
  }

  void bits() const {
    sheet_.heading("\nBits: when rework first falls due");
    const std::vector<int> widths{12, 22, 8, 13, 26, 22, 20};
    sheet_.row({"", "design", "chance", "middle", "10 % to 90 %", "most often after", "then"}, widths);
    for (const storage::BitOutlook& bit : shop_.bits) {
      if (!(bit.due_probability > 0.0)) {
        sheet_.row({bit.name, bit.design, "0 %", "not in this plan's time"}, widths);
        continue;
      }
      const auto kind = static_cast<std::size_t>(std::max_element(bit.by_class.begin(), bit.by_class.end()) -
                                                 bit.by_class.begin());
      sheet_.row({bit.name, bit.design, percent_words(bit.due_probability), date(bit.due.middle),
                  date(bit.due.low) + " to " + date(bit.due.high), hole_name(bit.due_after_hole),
                  pages::repair_class_words(kind)},
                 widths);
    }
  }

  void cutters() const {
    if (shop_.cutters.empty()) return;
    sheet_.heading("\nNew cutters");
    const std::vector<int> widths{24, 20, 20, 26};
    sheet_.row({"", "needed", "fewest on the shelf", "chance that a bit waits"}, widths);
    for (const storage::CutterOutlook& cutter : shop_.cutters) {
      std::string waits = percent_words(cutter.stock_out);
      if (cutter.stock_out > 0.0) waits += ", then " + time_words(cutter.wait.middle);
      sheet_.row({cutter.name, spread_words(cutter.needed, 1.0, 3), spread_words(cutter.least, 1.0), waits},
                 widths);
    }
  }

  void holes() const {
    std::vector<const storage::HoleOutlook*> risky;
    for (const storage::HoleOutlook& hole : shop_.holes)
      if (hole.late_probability >= 0.05) risky.push_back(&hole);
    if (risky.empty()) return;
    std::stable_sort(risky.begin(), risky.end(),
                     [](const auto* a, const auto* b) { return a->late_probability > b->late_probability; });
    constexpr std::size_t most = 12;
    sheet_.heading("\nHoles most likely to begin late for want of a bit");
    const std::vector<int> widths{20, 16, 14, 10, 24};
    sheet_.row({"", "rig", "booked", "chance", "rig stands, mean"}, widths);
    for (std::size_t k = 0; k < std::min(most, risky.size()); ++k)
      sheet_.row({risky[k]->name, risky[k]->rig, date(risky[k]->booked),
                  percent_words(risky[k]->late_probability), time_words(risky[k]->late.mean)},
                 widths);
    if (risky.size() > most)
      sheet_.line("", "and " + std::to_string(risky.size() - most) + " more with a chance of 5 % or above");
  }

  void pulls() const {
    if (shop_.early_pulls.empty()) return;
    sheet_.heading("\nBits to call in before they are due, each on top of those above it");
    const std::vector<int> widths{12, 20, 14, 20, 24, 22};
    sheet_.row({"", "after", "about", "holes late", "rigs stand, h", "money, " + shop_.currency}, widths);
    for (const storage::EarlyPull& pull : shop_.early_pulls)
      sheet_.row({shop_.bits[static_cast<std::size_t>(pull.bit)].name, hole_name(pull.after_hole),
                  date(pull.at), difference(pull.late_holes_more, pull.late_holes_error, 1.0),
                  difference(pull.late_time_more, pull.late_time_error, hour),
                  difference(pull.total_more, pull.total_error, 1.0)},
                 widths);
  }

  void costs() const {
    const storage::ShopMoney& spent = shop_.money;
    if (std::isnan(spent.total.mean)) {
      sheet_.line("money",
                  "not told: a scenario lacks prices (costs: rig, bit or replacement, rework, cutter)");
      return;
    }
    sheet_.heading("\nMoney, mean of the futures");
    sheet_.line("repairs", money(spent.repairs.mean) + " for " + number(spent.repairs_done) + " bits" +
                               (std::isnan(spent.repair_mean)
                                    ? std::string()
                                    : ", " + money(spent.repair_mean) + " each; new ones would cost " +
                                          money(spent.new_bit) + " each"));
    sheet_.line("new bits", money(spent.new_bits.mean) + " in place of scrapped ones");
    sheet_.line("rigs wait", money(spent.rigs_waiting.mean));
    sheet_.line("wear", money(spent.worn.mean) +
                            " that the bits' condition costs more at the end than at the beginning");
  }

 private:
  std::string date(double instant) const {
    const std::string day = clock_.day_text(instant);
    return day.empty() ? "-" : day;
  }
  std::string money(double amount) const { return base::show_money(amount, shop_.currency); }
  std::string hole_name(int hole) const {
    return hole < 0 ? "-" : shop_.holes[static_cast<std::size_t>(hole)].name;
  }

  void early() const {
    for (const storage::EarlyPull& pull : shop_.early_pulls)
      sheet_.line("call in early", shop_.bits[static_cast<std::size_t>(pull.bit)].name + " after " +
                                       hole_name(pull.after_hole) + ", about " + date(pull.at) + ": " +
                                       pages::pull_words(pull, shop_.currency));
  }

  const Sheet& sheet_;
  const ShopOutlook& shop_;
  pages::ShopClock clock_;
};

}  // namespace

void print_shop(const Sheet& sheet, const ShopOutlook& outlook, bool brief) {
  const ShopReport report(sheet, outlook);
  report.answer();
  if (brief) return;
  report.changes();
  report.benches();
  report.bits();
  report.cutters();
  report.holes();
  report.pulls();
  report.costs();
}

}  // namespace dullcast::commands
