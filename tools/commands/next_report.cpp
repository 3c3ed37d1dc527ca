#include "tools/commands/next_report.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ostream>
#include <vector>

#include "engine/base/plain_text.hpp"

namespace dullcast::commands {
namespace {

using analysis::BitChoice;
using analysis::ChoiceOutlook;
using analysis::NextHole;

constexpr BitChoice all_choices[] = {BitChoice::run_again, BitChoice::rework_first, BitChoice::new_bit};

/// What to do, as it is told to the shop.
const char* to_do(BitChoice choice) {
  switch (choice) {
    case BitChoice::run_again:
      return "run it again as it is";
    case BitChoice::rework_first:
      return "rework it first";
    case BitChoice::new_bit:
      return "scrap it and take a new bit";
  }
  return "";
}

const char* heading_of(BitChoice choice) {
  switch (choice) {
    case BitChoice::run_again:
      return "run again";
    case BitChoice::rework_first:
      return "rework first";
    case BitChoice::new_bit:
      return "new bit";
  }
  return "";
}

std::string capital(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

std::string finish_words(const ChoiceOutlook& outlook, int draws) {
  return "finishes the hole in " + std::to_string(outlook.finished) + " of " + std::to_string(draws) +
         " draws";
}

std::string length_words(double length, base::ShownUnits units) {
  return base::show(length, base::shown::length,
                    units == base::ShownUnits::field ? base::ShownUnits::both : units, 2);
}

std::string wear_words(const analysis::WornSoFar& worn, base::ShownUnits units) {
  return length_words(worn.greatest, units) + " on the worst cutter, " + length_words(worn.mean, units) +
         " in the mean";
}

class NextReport {
 public:
  NextReport(const Sheet& sheet, const scenario::Scenario& scenario, const NextFigures& figures)
      : sheet_(sheet),
        scenario_(scenario),
        figures_(figures),
        hole_(figures.hole),
        priced_(figures.hole.cheapest.has_value()) {}

  void answer() const {
    if (!priced_) {
      sheet_.line("answer",
                  hole_.unpriced.empty()
                      ? "none: no draw is left that any bit finishes; this hole is not one for this "
                        "kind of bit as it is planned"
                      : "none without prices: give costs." + listed(hole_.unpriced));
      for (const BitChoice choice : all_choices) {
        if (hole_.of(choice))
          sheet_.line("",
                      std::string(heading_of(choice)) + ": " + finish_words(*hole_.of(choice), hole_.draws));
      }
      return;
    }
    const ChoiceOutlook &best = *hole_.of(*hole_.cheapest), &other = *hole_.of(*hole_.runner_up);
    const std::string gap = money(other.more) + " (standard error " + money(other.more_error) + ")";
    if (hole_.too_near_to_call()) {
      sheet_.line("answer", "too near to call between \"" + std::string(to_do(*hole_.cheapest)) +
                                "\" and \"" + to_do(*hole_.runner_up) + "\": they differ by " + gap);
    } else {
      sheet_.line("answer", capital(to_do(*hole_.cheapest)) + ": " + money(best.cost.mean) + " expected, " +
                                gap + " less than to " + to_do(*hole_.runner_up));
    }
    sheet_.line("",
                finish_words(best, hole_.draws) +
                    (hole_.cheapest == BitChoice::run_again
                         ? std::string()
                         : "; run again it " + finish_words(*hole_.of(BitChoice::run_again), hole_.draws)));
  }

  void bit() const {
    if (!figures_.found.empty()) sheet_.line("the bit", figures_.found);
    std::string words;
    switch (hole_.now.plan.kind) {
      case condition::RepairClass::none:
        words = "nothing is due";
        break;
      case condition::RepairClass::scrap:
        words = "the shop's limits say scrap";
        break;
      default:
        words = std::to_string(hole_.now.plan.cutters) + " cutters and " +
                std::to_string(hole_.now.plan.pockets) + " pockets are due, " + money(hole_.now.plan.cost);
    }
    sheet_.line("due on it now", words + ": " + hole_.now.plan.reason);
  }

  void table() const {
    sheet_.out << "\n";
    sheet_.heading(priced_ ? "The hole by each choice: chance to finish it, and expected cost line by line"
                           : "The hole by each choice: chance to finish it");
    row("", [](BitChoice choice, const ChoiceOutlook&) { return std::string(heading_of(choice)); });
    row("finishes the hole",
        [](BitChoice, const ChoiceOutlook& one) { return percent_words(one.probability); });
    row("  as 95 % sure", [](BitChoice, const ChoiceOutlook& one) {
      return percent_words(one.interval.low) + " to " + percent_words(one.interval.high);
    });
    if (priced_) {
      line("paid before the hole", &analysis::HoleCost::before);
      line("rig, trips included", &analysis::HoleCost::rig);
      line("bits fetched for it", &analysis::HoleCost::fetched);
      line("repair or bit after it", &analysis::HoleCost::after);
      line("worn of what stays in", &analysis::HoleCost::worn);
      row("less: worn already", [&](BitChoice, const ChoiceOutlook& one) {
        return one.mean.already > 0.0 ? "-" + money(one.mean.already) : money(0.0);
      });
      row("expected cost", [&](BitChoice, const ChoiceOutlook& one) {
        return money(one.cost.mean) + " +- " + money(one.cost.error);
      });
      row("  one in ten under", [&](BitChoice, const ChoiceOutlook& one) { return money(one.cost.low); });
      row("  one in ten over", [&](BitChoice, const ChoiceOutlook& one) { return money(one.cost.high); });
      row("more than cheapest", [&](BitChoice choice, const ChoiceOutlook& one) {
        return choice == *hole_.cheapest ? std::string("-")
                                         : money(one.more) + " +- " + money(one.more_error);
      });
    }
    notes();
  }

  void flip(bool brief) const {
    using Kind = analysis::WearFlip::Kind;
    const analysis::WearFlip& flip = figures_.flip;
    const base::ShownUnits units = sheet_.units;
    switch (flip.kind) {
      case Kind::not_priced:
        return;
      case Kind::never:
        sheet_.line("flips", "never: to run it again is the cheapest up to the usable height, " +
                                 wear_words(flip.usable, units));
        break;
      case Kind::from_the_start:
        sheet_.line("flips",
                    "nowhere: to run it again is not the cheapest even without any wear; what else was "
                    "found decides");
        break;
      case Kind::flips:
        sheet_.line("flips", "at " + wear_words(*flip.at, units) + ": to run it again is the cheapest below");
        break;
    }
    if (brief) return;
    sheet_.line("as found", wear_words(flip.as_found, units));
    if (flip.clear_below) sheet_.line("clear below", wear_words(*flip.clear_below, units));
    if (flip.clear_above) sheet_.line("clear above", wear_words(*flip.clear_above, units));
    if (flip.cheapest_again)
      sheet_.line("and again", "the cheapest at " + wear_words(*flip.cheapest_again, units) +
                                   ": little is left then that running on could spoil");
    sheet_.out
        << "  The pattern of wear over the cutters is kept. Clear is a difference of more than two standard "
           "errors;\n  of the wears that were tried these lie nearest.\n";
  }

 private:
  std::string money(double amount) const {
    return base::show_money(std::round(amount), scenario_.costs.currency);
  }

  static std::string listed(const std::vector<std::string>& keys) {
    std::string words;
    for (const std::string& key : keys) words += (words.empty() ? "" : ", costs.") + key;
    return words;
  }

  template <class Cell>
  void row(const std::string& label, const Cell& cell) const {
    std::vector<std::string> cells{label};
    std::vector<int> widths{26};
    for (const BitChoice choice : all_choices) {
      if (!hole_.of(choice)) continue;
      cells.push_back(cell(choice, *hole_.of(choice)));
      widths.push_back(22);
    }
    sheet_.row(cells, widths);
  }

  void line(const std::string& label, double analysis::HoleCost::*part) const {
    row(label, [&](BitChoice, const ChoiceOutlook& one) { return money(one.mean.*part); });
  }

  void notes() const {
    std::ostream& out = sheet_.out;
    if (priced_)
      out << "  The shelf is to hold as many bits ready to drill afterwards as before: every bit pays what "
             "its\n"
             "  condition costs then, and what this one's costs already is taken off whatever is chosen. A "
             "bit\n"
             "  that does not finish comes out, and new ones drill the rest, a trip for each.\n";
    if (!hole_.of(BitChoice::rework_first))
      out << "  Rework first is no choice here: "
          << (hole_.now.plan.kind == condition::RepairClass::scrap ? "the shop's limits say scrap.\n"
                                                                   : "nothing is due.\n");
    out << "  " << hole_.draws
        << " draws of chance and of the library's numbers, the same for every choice.\n";
    if (hole_.endless > 0)
      out << "  In " << hole_.endless << " of them no bit finishes, nor do " << analysis::most_fetched
          << " fetched one after another: they count as not\n  finished and are left out of the costs.\n";
    if (hole_.failed > 0)
      out << "  " << hole_.failed << " draws more could not be run and are left out; the first said: "
          << base::plain(hole_.first_failure) << "\n";
    out << "\n";
  }

  const Sheet& sheet_;
  const scenario::Scenario& scenario_;
  const NextFigures& figures_;
  const NextHole& hole_;
  bool priced_;
};

}  // namespace

void print_next(const Sheet& sheet, const scenario::Scenario& scenario, const NextFigures& figures,
                bool brief) {
  sheet.out << scenario.title << "\n  " << scenario.bit.name << ": its next hole\n";
  const NextReport report(sheet, scenario, figures);
  report.answer();
  if (brief) {
    report.flip(true);
    sheet.out
        << "Estimates; the bit in the hand decides. Brazing and grinding only by those licensed for it.\n";
    return;
  }
  report.bit();
  report.table();
  if (figures.flip.kind != analysis::WearFlip::Kind::not_priced) {
    sheet.heading("Wear at which the answer flips");
    report.flip(false);
    sheet.out << "\n";
  }
  sheet.out << "Estimates from a model; the bit in the hand decides: cracks and loose brazes are not in "
               "these figures "
               "unless\nthey were found. Keep clear of rotating iron and lines under pressure, lift heavy "
               "iron with "
               "gear. Brazing and\ngrinding (heat, fumes, dust) only by those licensed and equipped for it. "
               "Local codes "
               "and a licensed driller come\nfirst.\n";
}

void write_next_csv(std::ostream& out, const NextFigures& figures) {
  out << "choice,draws,finished,probability,probability_low,probability_high,paid_before,rig,fetched,after,"
         "worn,"
         "already,cost,cost_error,cost_low,cost_high,more,more_error\n";
  char text[400];
  for (const BitChoice choice : all_choices) {
    if (!figures.hole.of(choice)) continue;
    const ChoiceOutlook& one = *figures.hole.of(choice);
    std::snprintf(text, sizeof text, "%s,%d,%d,%.9g,%.9g,%.9g,", analysis::bit_choice_name(choice),
                  figures.hole.draws, one.finished, one.probability, one.interval.low, one.interval.high);
    out << text;
    if (!figures.hole.cheapest) {
      out << ",,,,,,,,,,,\n";
      continue;
    }
    std::snprintf(text, sizeof text, "%.9g,%.9g,%.9g,%.9g,%.9g,%.9g,%.9g,%.9g,%.9g,%.9g,%.9g,%.9g\n",
                  one.mean.before, one.mean.rig, one.mean.fetched, one.mean.after, one.mean.worn,
                  one.mean.already, one.cost.mean, one.cost.error, one.cost.low, one.cost.high, one.more,
                  one.more_error);
    out << text;
  }
}

}  // namespace dullcast::commands
