#include "tools/commands/why_report.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ostream>

#include "engine/base/plain_text.hpp"

namespace dullcast::commands {
namespace {

using learning::FindingKind;
using learning::WorthLooking;

/// Differences below this many deviations are not worth a look.
constexpr double tells = 1.0;
/// Cutters expected below which found over expected means nothing.
constexpr double hardly_any = 0.05;
/// ln of the odds below which a finding hardly moved them.
constexpr double hardly_moved = 0.2;

std::string percent(double share) {
  return std::to_string(std::lround(100.0 * share)) + " %";
}

std::string capital(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

const learning::Cause& cause_at(const WhyFigures& figures, std::size_t rank) {
  return figures.causes[figures.odds.order[rank]];
}

std::string of_cutters(double count, double all) {
  return base::show_number(count < 0.05 ? 0.0 : std::round(10.0 * count) / 10.0, 2) + " of " +
         base::show_number(std::round(all)) + " cutters";
}

std::string look_words(const WorthLooking& look, const WhyFigures& figures, base::ShownUnits units) {
  const std::string first = cause_at(figures, 0).words, second = cause_at(figures, 1).words;
  const auto counted = [&](const char* unseen, const char* would) {
    return std::string(unseen) + " were not noted: under " + first + " " + of_cutters(look.leading, look.of) +
           " would " + would + ", under " + second + " " + of_cutters(look.other, look.of) +
           ". Look for them.";
  };
  switch (look.finding) {
    case FindingKind::heat_checks:
      return counted("Heat checks", "show them");
    case FindingKind::chips:
      return counted("Chipped edges", "have one");
    case FindingKind::lost:
      return counted("Lost cutters", "be gone");
    case FindingKind::bare:
      return counted("Tables off their carbide", "have lost theirs");
    case FindingKind::grades: {
      std::string words = look.outer ? "The outer" : "The inner";
      words += " dull grade was not read: under " + first;
      words += " it would be near " + base::show_number(look.leading, 2) + ", under " + second;
      words += " near " + base::show_number(look.other, 2) + ". Read it.";
      return words;
    }
    case FindingKind::heights: {
      const auto length = [&](double value) {
        return base::show(value, base::shown::length,
                          units == base::ShownUnits::field ? base::ShownUnits::both : units, 2);
      };
      std::string words = "Cutter " + std::to_string(look.cutter + 1);
      words += " was not measured: under " + first + " it would be worn " + length(look.leading);
      words += ", under " + second + " " + length(look.other) + ". Measure it.";
      return words;
    }
  }
  return "";
}

std::string weight_words(double log_odds) {
  return base::show_number(std::exp(std::min(std::abs(log_odds), 20.0)), 2) + " times";
}

void print_findings(const Sheet& sheet, const WhyFigures& figures) {
  const auto& findings = figures.odds.findings;
  if (findings.empty()) {
    sheet.line("findings", "none: nothing of this bit was written down, so these are the odds as they stood");
    return;
  }
  const std::string leading = cause_at(figures, 0).words;
  const auto &most = findings.front(), &least = findings.back();
  if (most.log_odds <= hardly_moved && least.log_odds >= -hardly_moved) {
    sheet.line("findings", "nothing found tells these causes apart: all of them expect it, or none does");
    return;
  }
  if (most.log_odds > hardly_moved)
    sheet.line("most for it", capital(learning::finding_words(most.finding)) + ": they make " + leading +
                                  " " + weight_words(most.log_odds) +
                                  " likelier than it would be without them");
  else
    sheet.line("most for it", "nothing found speaks for " + leading + "; it leads by its odds beforehand");
  if (least.log_odds < -hardly_moved)
    sheet.line("most against", capital(learning::finding_words(least.finding)) +
                                   ": without them it would be " + weight_words(least.log_odds) +
                                   " likelier");
  else
    sheet.line("most against", "nothing found speaks against it");
}

void print_looks(const Sheet& sheet, const WhyFigures& figures, std::size_t most) {
  std::size_t told = 0;
  for (const WorthLooking& look : figures.looks) {
    if (look.deviations < tells || told == most) break;
    sheet.out << "  " << look_words(look, figures, sheet.units) << "\n";
    ++told;
  }
  if (told == 0 && figures.odds.order.size() > 1)
    sheet.out << "  Nothing that was left out would tell " << cause_at(figures, 0).words << " from "
              << cause_at(figures, 1).words << " well.\n";
}

std::string rate_words(const statistics::CountedRate& rate) {
  if (rate.expected < hardly_any) return "hardly any were expected, so no rate";
  const statistics::Interval interval = statistics::poisson_mean_interval(rate.seen, 0.9);
  return base::show_number(static_cast<double>(rate.seen) / rate.expected, 2) + " (" +
         base::show_number(interval.low / rate.expected, 2) + " to " +
         base::show_number(interval.high / rate.expected, 2) + ")";
}

std::string seen_words(const statistics::CountedRate& rate) {
  return std::to_string(rate.seen) + " / " + base::show_number(rate.expected, 2);
}

}  // namespace

void print_why(const Sheet& sheet, const WhyFigures& figures, bool brief) {
  sheet.out << "Bit " << base::plain(figures.found.bit) << ": why did it come back like this?\n";
  const std::size_t leading = figures.odds.order.front();
  const learning::CauseWeighed& first = figures.odds.causes[leading];
  sheet.line("likeliest", capital(figures.causes[leading].words) + ", " + percent(first.probability) + " (" +
                              figures.causes[leading].levels[first.level].words + ")");
  if (figures.odds.order.size() > 1) {
    const learning::CauseWeighed& second = figures.odds.causes[figures.odds.order[1]];
    sheet.line("then", cause_at(figures, 1).words + ", " + percent(second.probability) + " (" +
                           cause_at(figures, 1).levels[second.level].words + ")");
  }
  if (brief) {
    print_looks(sheet, figures, 1);
    sheet.out << "Estimates; the bit in the hand decides.\n";
    return;
  }
  print_findings(sheet, figures);
  sheet.out << "\n";
  sheet.heading("Causes, likeliest first");
  sheet.row({"cause", "odds before", "now", "of it most by"}, {18, 14, 14, 0});
  double all = 0.0;
  for (const learning::Cause& cause : figures.causes) all += cause.odds;
  for (const std::size_t c : figures.odds.order) {
    const learning::CauseWeighed& one = figures.odds.causes[c];
    const std::string now =
        percent(one.probability) + " +- " + base::show_number(std::round(100.0 * one.probability_error));
    sheet.row({figures.causes[c].words, percent(figures.causes[c].odds / all), now,
               std::isfinite(one.log_evidence) ? figures.causes[c].levels[one.level].words
                                               : std::string("could not be drilled")},
              {18, 14, 14, 0});
  }
  sheet.out << "  Of these causes only, each with its odds beforehand (assumed; --odds heat=30 changes "
               "them). +- is "
               "one standard\n  error of "
            << figures.draws
            << " draws of the library's numbers, the same for every cause; more --draws make it "
               "smaller.\n";
  if (figures.failed_runs > 0) sheet.out << "  " << figures.failed_runs << " runs failed and are left out.\n";
  sheet.out << "\n";
  sheet.heading("What would have told the first two apart");
  print_looks(sheet, figures, 3);
  sheet.out
      << "\nEstimates from a model; the bit in the hand decides, and no figure here says who is to blame. "
         "Brazing and grinding\n(heat, fumes, dust) only by those licensed and equipped for it. Local codes "
         "and a licensed driller come first.\n";
}

void write_why_csv(std::ostream& out, const WhyFigures& figures) {
  out << "cause,odds_before,probability,probability_error,log_evidence,level\n";
  char text[200];
  for (const std::size_t c : figures.odds.order) {
    const learning::CauseWeighed& one = figures.odds.causes[c];
    std::snprintf(text, sizeof text, ",%.9g,%.9g,%.9g,%.9g,", figures.causes[c].odds, one.probability,
                  one.probability_error, one.log_evidence);
    out << base::csv_cell(figures.causes[c].name) << text
        << base::csv_cell(figures.causes[c].levels[one.level].words) << "\n";
  }
}

void print_lots(const Sheet& sheet, const std::vector<learning::LotRecordSeen>& lots, bool brief) {
  std::vector<const learning::LotRecordSeen*> told;
  for (const learning::LotRecordSeen& lot : lots) {
    if (lot.both().expected > 0.0) told.push_back(&lot);
  }
  sheet.heading("Lots of cutters: chips and losses found, beside what a sound lot would have had");
  if (told.empty()) {
    sheet.out << "  No record says how many cutters were chipped or lost.\n";
    return;
  }
  std::stable_sort(told.begin(), told.end(), [](const auto* a, const auto* b) {
    return statistics::middle_rate(a->both()) > statistics::middle_rate(b->both());
  });
  if (!brief) {
    sheet.row(
        {"lot", "bits", "chips found / expected", "lost found / expected", "found over expected, 90 % sure"},
        {18, 8, 26, 26, 0});
    for (const learning::LotRecordSeen* lot : told)
      sheet.row({base::plain(lot->lot), std::to_string(lot->bits), seen_words(lot->chips),
                 seen_words(lot->lost), rate_words(lot->both())},
                {18, 8, 26, 26, 0});
    sheet.out
        << "  Expected at the library's central numbers, which may be off by a factor that all lots share; "
           "found over\n  expected counts chips and losses together, within exact Poisson bounds.\n\n";
  }
  for (std::size_t k = 0; k + 1 < told.size(); ++k) {
    for (std::size_t other = k + 1; other < told.size(); ++other) {
      const double chance = statistics::chance_of_greater_rate(told[k]->both(), told[other]->both());
      sheet.out << "  " << base::plain(told[k]->lot) << " is worse than " << base::plain(told[other]->lot)
                << " with a chance of " << percent_words(chance) << "\n";
    }
  }
  if (told.size() < 2) sheet.out << "  One lot only: there is none to compare it with.\n";
  sheet.out
      << "Estimates; chips of one bit go together, so a few bits say less than their cutters. Inspect every "
         "braze.\n";
}

void write_lots_csv(std::ostream& out, const std::vector<learning::LotRecordSeen>& lots) {
  out << "lot,bits,chips,chips_expected,lost,lost_expected\n";
  char text[160];
  for (const learning::LotRecordSeen& lot : lots) {
    std::snprintf(text, sizeof text, ",%d,%ld,%.9g,%ld,%.9g\n", lot.bits, lot.chips.seen, lot.chips.expected,
                  lot.lost.seen, lot.lost.expected);
    out << base::csv_cell(lot.lot) << text;
  }
}

}  // namespace dullcast::commands
