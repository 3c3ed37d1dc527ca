#include "tools/commands/shelf_report.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/plain_text.hpp"
#include "engine/input/problems.hpp"
#include "engine/input/yaml_lines.hpp"

namespace dullcast::commands {
namespace {

using Shelf = std::vector<scenario::ShelvedBit>;
using Beside = std::vector<analysis::BesideForecast>;
using Cells = std::vector<std::string>;

constexpr std::size_t longest_bit_shown = 24, farthest_told = 3;
constexpr const char* nothing_seen = "-";

/// One figure of a record, where there is one.
using Figure = std::optional<double>;

/// The figures of one line, of a record or of all.
struct Line {
  Figure holes, drilled, inner_found, outer_found, inner, outer, worst_found, worst, ratio;
  Figure chipped_found, chipped, lost_found, lost, heat_found, heat;
  bool inner_least = false, outer_least = false, worst_least = false;
};

Figure figure_of(const std::optional<int>& count) {
  return count ? Figure(*count) : std::nullopt;
}

Line line_of(const scenario::ShelvedBit& record, const analysis::BesideForecast& beside) {
  const scenario::InspectedBit& found = record.found;
  Line line;
  line.holes = found.holes;
  if (found.inner_grade) line.inner_found = found.inner_grade->grade;
  if (found.outer_grade) line.outer_found = found.outer_grade->grade;
  line.inner_least = found.inner_grade && found.inner_grade->at_least;
  line.outer_least = found.outer_grade && found.outer_grade->at_least;
  line.worst_found = beside.worst_found;
  line.worst_least = beside.worst_at_least;
  line.chipped_found = figure_of(beside.chipped.found);
  line.lost_found = figure_of(beside.lost.found);
  line.heat_found = figure_of(beside.heat_checked.found);
  if (!beside.failure.empty()) return line;
  line.drilled = beside.footage;
  line.inner = beside.inner_grade;
  line.outer = beside.outer_grade;
  line.worst = beside.worst_forecast;
  line.ratio = beside.wear_ratio;
  line.chipped = beside.chipped.expected;
  line.lost = beside.lost.expected;
  line.heat = beside.heat_checked.expected;
  return line;
}

constexpr Figure Line::*all_figures[] = {
    &Line::holes,   &Line::drilled,     &Line::inner_found, &Line::outer_found, &Line::inner,
    &Line::outer,   &Line::worst_found, &Line::worst,       &Line::ratio,       &Line::chipped_found,
    &Line::chipped, &Line::lost_found,  &Line::lost,        &Line::heat_found,  &Line::heat};

std::vector<Line> lines_of(const Shelf& shelf, const Beside& beside) {
  std::vector<Line> lines;
  for (std::size_t k = 0; k < shelf.size(); ++k) lines.push_back(line_of(shelf[k], beside[k]));
  return lines;
}

/// Medians of each figure over the records that have it.
Line medians_of(const std::vector<Line>& lines) {
  Line medians;
  for (Figure Line::*figure : all_figures) {
    std::vector<double> values;
    for (const Line& line : lines) {
      if (line.*figure) values.push_back(*(line.*figure));
    }
    medians.*figure = analysis::median_of(std::move(values));
  }
  return medians;
}

std::string at_least_words(bool least) {
  return least ? "at least " : "";
}

std::string number_words(const Figure& figure, int digits = 2) {
  if (!figure) return nothing_seen;
  return base::show_number(std::abs(*figure) < 5e-4 ? 0.0 : *figure, digits);
}

std::string grades_found(const Line& line) {
  if (!line.inner_found && !line.outer_found) return nothing_seen;
  return at_least_words(line.inner_least) + number_words(line.inner_found) + ", " +
         at_least_words(line.outer_least) + number_words(line.outer_found);
}

std::string length_words(const Figure& figure, base::ShownUnits units) {
  return figure ? base::show(*figure, base::shown::length, units, 2) : nothing_seen;
}

std::string count_words(const Figure& found, const Figure& expected) {
  return number_words(found) + " (" + number_words(expected) + ")";
}

Cells cells_of(const std::string& bit, const std::string& day, const Line& line, base::ShownUnits units) {
  return {bit,
          day,
          number_words(line.holes, 4),
          line.drilled ? base::show(*line.drilled, base::shown::depth, units) : nothing_seen,
          grades_found(line),
          grade_words(line.inner) + ", " + grade_words(line.outer),
          at_least_words(line.worst_least && line.worst_found) + length_words(line.worst_found, units),
          length_words(line.worst, units),
          number_words(line.ratio),
          count_words(line.chipped_found, line.chipped),
          count_words(line.lost_found, line.lost),
          count_words(line.heat_found, line.heat)};
}

std::string bit_words_of(const scenario::InspectedBit& found) {
  return input::shortened(base::plain(found.bit), longest_bit_shown);
}

void print_table(const Sheet& sheet, const std::vector<Cells>& rows) {
  std::vector<int> widths(rows.front().size(), 0);
  for (const Cells& row : rows) {
    for (std::size_t k = 0; k < row.size(); ++k)
      widths[k] = std::max(widths[k], static_cast<int>(row[k].size()) + 2);
  }
  for (const Cells& row : rows) sheet.row(row, widths);
}

/// Found and expected of all records in which somebody looked.
std::string counted_together(const std::vector<Line>& lines, Figure Line::*found, Figure Line::*expected) {
  double seen = 0.0, forecast = 0.0;
  int records = 0;
  for (const Line& line : lines) {
    if (!(line.*found) || !(line.*expected)) continue;
    ++records;
    seen += *(line.*found);
    forecast += *(line.*expected);
  }
  return records == 0 ? "nobody looked"
                      : number_words(seen, 6) + " found, " + number_words(forecast) + " expected on " +
                            std::to_string(records) + (records == 1 ? " bit" : " bits");
}

void print_together(const Sheet& sheet, const std::vector<Line>& lines) {
  sheet.heading("All that were looked at together");
  sheet.line("chipped", counted_together(lines, &Line::chipped_found, &Line::chipped));
  sheet.line("lost or bared", counted_together(lines, &Line::lost_found, &Line::lost));
  sheet.line("heat-checked", counted_together(lines, &Line::heat_found, &Line::heat));
}

/// Records by how far their wear lies from the shelf's median ratio, the farthest first.
void print_farthest(const Sheet& sheet, const Shelf& shelf, const std::vector<Line>& lines,
                    const Line& medians) {
  std::vector<std::size_t> order;
  for (std::size_t k = 0; k < lines.size(); ++k) {
    if (lines[k].ratio && *lines[k].ratio > 0.0) order.push_back(k);
  }
  if (order.size() < 2 || !(medians.ratio.value_or(0.0) > 0.0)) return;
  const auto far = [&](std::size_t k) { return std::abs(std::log(*lines[k].ratio / *medians.ratio)); };
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return far(a) > far(b); });
  std::string words;
  for (std::size_t i = 0; i < std::min(order.size(), farthest_told); ++i)
    words += (i > 0 ? ", " : "") + bit_words_of(shelf[order[i]].found) + " (x " +
             number_words(lines[order[i]].ratio) + ")";
  sheet.line("farthest off", words);
}

void print_medians(const Sheet& sheet, const Shelf& shelf, const std::vector<Line>& lines,
                   const Line& medians) {
  sheet.line("bits", std::to_string(shelf.size()));
  if (medians.ratio)
    sheet.line("wear", "x " + number_words(medians.ratio) + " of what is forecast, in the median");
  sheet.line("grades", "found " + grades_found(medians) + ", forecast " + grade_words(medians.inner) + ", " +
                           grade_words(medians.outer) + " (inner, outer)");
  print_farthest(sheet, shelf, lines, medians);
}

}  // namespace

void print_shelf(const Sheet& sheet, const std::string& file, const Shelf& shelf, const Beside& beside,
                 bool brief) {
  const std::vector<Line> lines = lines_of(shelf, beside);
  const Line medians = medians_of(lines);
  sheet.heading("Bits of " + base::plain(file) + " beside their forecasts");
  sheet.out << "  Estimates at central numbers.\n\n";
  if (!brief) {
    std::vector<Cells> rows{{"bit", "inspected", "holes", "drilled", "grades", "forecast", "worst worn",
                             "forecast", "wear x", "chipped", "lost", "heat-checked"}};
    for (std::size_t k = 0; k < shelf.size(); ++k)
      rows.push_back(cells_of(bit_words_of(shelf[k].found), shelf[k].found.inspected, lines[k], sheet.units));
    rows.push_back(cells_of("median", "", medians, sheet.units));
    print_table(sheet, rows);
    sheet.out << "\n";
  } else {
    print_medians(sheet, shelf, lines, medians);
  }
  print_together(sheet, lines);
  for (std::size_t k = 0; k < shelf.size(); ++k) {
    if (!beside[k].failure.empty())
      sheet.line("not drilled", bit_words_of(shelf[k].found) + ": " + base::plain(beside[k].failure));
    if (beside[k].failure.empty() && !beside[k].finished)
      sheet.line("not finished", bit_words_of(shelf[k].found) + ": its run ends after " +
                                     base::show(beside[k].footage, base::shown::depth, sheet.units) +
                                     "; check its ground, weight and holes");
  }
  if (brief) return;
  sheet.out << "\nGrades are inner, outer. \"wear x\" is wear found over wear forecast, means of the cutters "
               "measured. Counts are found\n(expected); - is not looked at. The bit in the hand decides.\n";
}

void write_shelf_csv(std::ostream& out, const Shelf& shelf, const Beside& beside) {
  const std::vector<Line> lines = lines_of(shelf, beside);
  out << "bit,inspected,lot,holes,drilled_m,inner_found,outer_found,inner_forecast,outer_forecast,worst_"
         "found_m,"
         "worst_forecast_m,wear_ratio,chipped_found,chipped_expected,lost_found,lost_expected,"
         "heat_checked_found,heat_checked_expected,inner_at_least,outer_at_least,worst_at_least\n";
  const auto write = [&](const std::string& bit, const std::string& day, const std::string& lot,
                         const Line& line) {
    out << base::csv_cell(bit) << "," << base::csv_cell(day) << "," << base::csv_cell(lot);
    for (Figure Line::*figure : all_figures) {
      out << ",";
      if (line.*figure) out << input::exact_text(*(line.*figure));
    }
    out << "," << line.inner_least << "," << line.outer_least << "," << line.worst_least << "\n";
  };
  for (std::size_t k = 0; k < shelf.size(); ++k)
    write(shelf[k].found.bit, shelf[k].found.inspected, shelf[k].run.bit.lot.name, lines[k]);
  write("median", "", "", medians_of(lines));
}

}  // namespace dullcast::commands
