#include "tools/commands/learn_report.hpp"

#include <algorithm>
#include <cmath>
#include <ostream>

#include "engine/base/plain_text.hpp"
#include "engine/input/yaml_lines.hpp"
#include "engine/scenario/number_fields.hpp"
#include "tools/commands/number_words.hpp"

namespace dullcast::commands {
namespace {

constexpr std::size_t told_at_most = 14;

std::string bits_words(std::size_t count) {
  return std::to_string(count) + (count == 1 ? " inspected bit" : " inspected bits");
}

/// "times 1.8" of a logarithm, as a factor above or below one.
std::string times(double log_ratio) {
  return base::show_number(std::exp(log_ratio));
}

std::string three(const scenario::Quantity& q, const std::string& name, base::ShownUnits units) {
  const base::Dimension* kind = scenario::dimension_of_number(name);
  return number_words(q.low, kind, units) + ", " + number_words(q.central, kind, units) + ", " +
         number_words(q.high, kind, units);
}

void print_numbers(const Sheet& sheet, const ShelfLesson& lesson) {
  sheet.heading("What they tell (low, central, high: one case in ten lies below low, one above high)");
  const std::vector<int> widths{50, 42, 42, 10};
  sheet.row({"number", "before", "now", "narrowed"}, widths);
  for (std::size_t k = 0; k < std::min(told_at_most, lesson.told.told.size()); ++k) {
    const learning::NumberTold& one = lesson.told.told[k];
    sheet.row({spoken(one.name), three(one.before, one.name, sheet.units),
               three(one.now, one.name, sheet.units), percent_words(std::max(0.0, 1.0 - one.left))},
              widths);
  }
  if (lesson.told.told.size() > told_at_most)
    sheet.out << "  and " << lesson.told.told.size() - told_at_most
              << " more that moved or narrowed by a tenth or more\n";
  if (lesson.told.told.empty()) sheet.out << "  nothing beyond what the library holds\n";
  sheet.out << "  From bit to bit wear differs by " << percent_words(lesson.fit.bit_spread)
            << " (one standard deviation of its logarithm; before: "
            << percent_words(lesson.fit.numbers.bit_spread) << ").\n";
  for (const learning::ToldTogether& pair : lesson.told.together) {
    sheet.out << "  " << spoken(pair.one) << " and " << spoken(pair.other) << " are told "
              << (pair.correlation < 0.0 ? "as a product" : "as a ratio") << " rather than each (correlation "
              << base::show_number(pair.correlation, 2) << ").\n";
  }
}

void print_not_told(const Sheet& sheet, const ShelfLesson& lesson) {
  if (lesson.told.not_told.empty()) return;
  std::string names;
  for (const learning::NumberTold& one : lesson.told.not_told)
    names += (names.empty() ? "" : "; ") + spoken(one.name);
  sheet.heading("\nWhat these records cannot tell");
  sheet.line("no better known", names);
}

void print_prediction(const Sheet& sheet, const ShelfLesson& lesson) {
  const learning::PredictiveError error = learning::predictive_error(lesson.judged);
  sheet.heading("\nHow well the next bit's wear is told (each bit that was measured, by all the others)");
  if (error.bits < 2) {
    sheet.out << "  takes two bits at least whose wear was read\n";
    return;
  }
  sheet.line("before", "wrong by a factor of " + times(error.before) + "; " +
                           std::to_string(error.within_before) + " of " + std::to_string(error.bits) +
                           " within the 90 % range told of them");
  sheet.line("now", "wrong by a factor of " + times(error.told) + "; " + std::to_string(error.within_told) +
                        " of " + std::to_string(error.bits) + " within it");
}

void print_outliers(const Sheet& sheet, const ShelfLesson& lesson) {
  bool any = false;
  for (std::size_t r = 0; r < lesson.judged.size(); ++r) {
    const learning::BitJudged& one = lesson.judged[r];
    if (!learning::is_outlier(one)) continue;
    if (!any) sheet.heading("\nBits that do not fit (one in a hundred would by chance)");
    any = true;
    sheet.line("bit " + lesson.bits[r].found.bit,
               "wore " + times(one.told) +
                   " times what the others tell; look at its record, or for what its "
                   "run went through");
  }
  for (std::size_t r = 0; r < lesson.bits.size(); ++r) {
    const double share = lesson.fit.responses[r].at.drilled_share;
    if (share > 0.999) continue;
    sheet.line("bit " + lesson.bits[r].found.bit,
               "as recorded, the model's bit stops after " + percent_words(share) +
                   " of what this one drilled: look at its weight and ground");
  }
}

}  // namespace

void print_lesson(const Sheet& sheet, const ShelfLesson& lesson, bool brief) {
  std::ostream& out = sheet.out;
  out << "What " << bits_words(lesson.bits.size()) << " of " << lesson.shelf << " tell\n\n";
  if (brief) {
    std::size_t k = 0;
    for (const learning::NumberTold& one : lesson.told.told) {
      if (++k > 5) break;
      sheet.line(spoken(one.name),
                 three(one.before, one.name, sheet.units) + "  ->  " + three(one.now, one.name, sheet.units));
    }
    const learning::PredictiveError error = learning::predictive_error(lesson.judged);
    if (error.bits > 1)
      sheet.line("next bit's wear",
                 "told to a factor of " + times(error.told) + " (before: " + times(error.before) + ")");
    const auto outliers = std::count_if(lesson.judged.begin(), lesson.judged.end(), learning::is_outlier);
    if (outliers > 0) sheet.line("do not fit", bits_words(static_cast<std::size_t>(outliers)));
    out << "Estimates; the bit in the hand decides.\n";
    return;
  }
  print_numbers(sheet, lesson);
  print_not_told(sheet, lesson);
  print_prediction(sheet, lesson);
  print_outliers(sheet, lesson);
  out << "\nEstimates. Records are read as they were written: a wrong rock or weight in them is learnt as "
         "well.\n"
         "The bit in the hand decides.\n";
}

void print_both_bands(const Sheet& sheet, const std::string& title,
                      const std::vector<simulation::LifeEnd>& before,
                      const std::vector<simulation::LifeEnd>& now) {
  sheet.heading("\nWhen rework falls due on \"" + title + "\"");
  const std::vector<int> widths{10, 24, 24, 24, 14};
  sheet.row({"", "low", "central", "high", "high over low"}, widths);
  const auto row = [&](const std::string& label, const std::vector<simulation::LifeEnd>& band) {
    const auto cell = [&](const simulation::LifeEnd& end) {
      return (end.due != 0 ? "" : "past ") + base::show(end.footage, base::shown::depth, sheet.units) +
             ", hole " + std::to_string(end.hole + 1);
    };
    const bool known = band.front().due != 0 && band.back().due != 0 && band.front().footage > 0.0;
    sheet.row({label, cell(band[0]), cell(band[1]), cell(band[2]),
               known ? base::show_number(band.back().footage / band.front().footage) : "not told"},
              widths);
  };
  row("before", before);
  row("now", now);
}

void write_lesson_csv(std::ostream& out, const ShelfLesson& lesson) {
  out << "bit,inspected,found_over_library,deviation,found_over_told,deviation_told,deviations_off\n";
  for (std::size_t r = 0; r < lesson.bits.size(); ++r) {
    const learning::BitJudged& one = lesson.judged[r];
    out << base::csv_cell(lesson.bits[r].found.bit) << "," << base::csv_cell(lesson.bits[r].found.inspected);
    if (!one.tells_wear) {
      out << ",,,,,\n";
      continue;
    }
    for (const double value :
         {std::exp(one.before), one.before_deviation, std::exp(one.told), one.told_deviation, one.z_told()})
      out << "," << input::exact_text(value);
    out << "\n";
  }
}

}  // namespace dullcast::commands
