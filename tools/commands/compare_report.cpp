#include "tools/commands/compare_report.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/base/words.hpp"
#include "tools/commands/brief_report.hpp"
#include "tools/commands/compare_measures.hpp"

namespace dullcast::commands {
namespace {

constexpr std::size_t inputs_told = 20;
/// "(x 0.62)" beside the first run's figure; differences of temperature in degrees.
std::string beside_first(const Measure& measure, double value, double first, base::ShownUnits units) {
  if (!std::isfinite(value) || !std::isfinite(first)) return "";
  if (std::string(measure.name) == "hottest_flat") {
    const double rise = value - first;
    return " (" + std::string(rise < 0.0 ? "" : "+") +
           base::show(rise, base::shown::temperature_difference,
                      units == base::ShownUnits::both ? base::ShownUnits::si : units) +
           ")";
  }
  if (!(first > 1e-6)) return "";
  if (std::abs(value / first - 1.0) < 5e-4) return " (same)";
  return " (x " + base::show_number(value / first, 3) + ")";
}

/// How a person reads a value of a resolved text: a number in SI with its unit, or a word.
std::string one_value(const std::string& text, base::ShownUnits units) {
  double value = 0.0;
  const auto [end, error] = base::read_number(text.data(), text.data() + text.size(), value);
  if (error != std::errc()) return base::plain(text);
  std::string unit(end, text.data() + text.size());
  if (!unit.empty()) unit.erase(0, unit.find_first_not_of(' '));
  if (const base::Shown* kind = shown_unit(unit)) return base::show(value, *kind, units);
  if (unit == "m")
    return base::show(value, value < 1.0 && value > 0.0 ? base::shown::length : base::shown::depth, units);
  if (unit == "s") return seconds_words(value);
  if (unit == "rad") return angle_words(value);
  if (unit.size() > 2 && unit.substr(unit.size() - 2) == "/s" && unit.find('/') == unit.size() - 2)
    return base::show_number(3600.0 * value, 4) + " " + unit.substr(0, unit.size() - 1) + "h";
  return base::plain_number(value) + (unit.empty() ? "" : " " + base::plain(unit));
}

/// A value with its spread: "50 MPa (20 MPa to 80 MPa)".
std::string value_words(const std::string& text, base::ShownUnits units) {
  if (text.empty()) return "-";
  const std::size_t open = text.find(" ("), to = text.find(" to ", open);
  if (open == std::string::npos || to == std::string::npos || text.back() != ')')
    return one_value(text, units);
  const auto part = [&](std::size_t from, std::size_t end) {
    return one_value(text.substr(from, end - from), units);
  };
  return part(0, open) + " (" + part(open + 2, to) + " to " + part(to + 4, text.size() - 1) + ")";
}

/// A letter a run: A, B, ..., as headings of columns; more than 26 are not compared.
std::string letter(std::size_t run) {
  return std::string(1, static_cast<char>('A' + static_cast<char>(run)));
}

class Comparison {
 public:
  Comparison(const Sheet& sheet, const std::vector<ToldRun>& runs) : sheet_(sheet), runs_(runs) {}

  void heading() const {
    sheet_.heading("Side by side");
    for (std::size_t k = 0; k < runs_.size(); ++k)
      sheet_.line(letter(k), base::plain(runs_[k].name) + ": " + runs_[k].scenario.title);
    sheet_.out << "  Estimates.\n\n";
  }

  void inputs(const std::vector<input::InputDifference>& differences, bool all) const {
    sheet_.heading("What differs in the inputs");
    if (differences.empty()) {
      sheet_.out << "  nothing\n\n";
      return;
    }
    Rows rows = headed();
    std::size_t told = 0;
    for (const input::InputDifference& one : differences) {
      if (!all && told++ == inputs_told) break;
      std::vector<std::string> cells{one.key};
      for (std::size_t k = 0; k < runs_.size(); ++k)
        cells.push_back(value_words(one.values[k], sheet_.units));
      rows.push_back(cells);
    }
    print(rows);
    if (!all && differences.size() > inputs_told)
      sheet_.out << "  and " << differences.size() - inputs_told << " more (--all tells them)\n";
    sheet_.out << "\n";
  }

  void outcome() const {
    sheet_.heading("What came of it (at rework where it fell due, else at the run's end)");
    Rows rows = headed();
    texts(rows, "rework due", [&](const ToldRun& run) { return due_words(run.scenario, run.outcome); });
    texts(rows, "by the rule", [&](const ToldRun& run) {
      return run.outcome.rework_due ? rule_words(run.outcome.rework_due->rule, run.scenario.rules)
                                    : std::string("-");
    });
    for (const char* end : {"low", "high"}) {
      texts(rows, std::string(end) + " end of the band", [&](const ToldRun& run) {
        for (const simulation::LifeEnd& one : run.band)
          if (one.end == end) return end_words(one);
        return std::string("not asked for");
      });
    }
    for (const Measure& measure : measures()) {
      std::vector<std::string> cells{measure.label};
      const double first = measure.value(runs_.front());
      for (std::size_t k = 0; k < runs_.size(); ++k) {
        const double value = measure.value(runs_[k]);
        std::string cell = std::isfinite(value) ? measure.words(value, runs_[k], sheet_.units) : "-";
        if (k > 0) cell += beside_first(measure, value, first, sheet_.units);
        cells.push_back(cell);
      }
      rows.push_back(cells);
    }
    print(rows);
    sheet_.out << "\n";
    sheet_.heading("Does the ground suit the bit?");
    for (std::size_t k = 0; k < runs_.size(); ++k)
      sheet_.line(letter(k), verdict_in_a_line(runs_[k].scenario, runs_[k].outcome, sheet_.units));
    sheet_.out << "\n";
  }

  void layers() const {
    const std::size_t layers = runs_.front().scenario.column.layers.size();
    for (const ToldRun& run : runs_) {
      if (run.scenario.column.layers.size() != layers) return;
    }
    sheet_.heading("First hole, layer by layer: progress, hottest flat");
    Rows rows = headed();
    for (std::size_t layer = 0; layer < layers; ++layer) {
      std::vector<std::string> cells{spoken(runs_.front().scenario.column.layers[layer].rock.name)};
      for (const ToldRun& run : runs_) {
        std::string cell = "not reached";
        for (const simulation::LayerPassage& p : run.outcome.passages) {
          if (p.hole == 0 && p.layer == static_cast<int>(layer))
            cell = base::show(p.mean_rate_of_penetration, base::shown::progress, sheet_.units) + ", " +
                   base::show(p.hottest_flat, base::shown::temperature, sheet_.units);
        }
        if (run.scenario.column.layers[layer].rock.name !=
            runs_.front().scenario.column.layers[layer].rock.name)
          cell += " (" + spoken(run.scenario.column.layers[layer].rock.name) + ")";
        cells.push_back(cell);
      }
      rows.push_back(cells);
    }
    print(rows);
    sheet_.out << "\n";
  }

  void end() const {
    sheet_.out
        << "A difference smaller than the band's width may be chance of the numbers, not of the change. The "
           "bit in the\nhand decides; local codes and a licensed driller come first.\n";
  }

 private:
  using Rows = std::vector<std::vector<std::string>>;

  /// A table's first row: a letter a run.
  Rows headed() const {
    std::vector<std::string> cells{""};
    for (std::size_t k = 0; k < runs_.size(); ++k) cells.push_back(letter(k));
    return {cells};
  }
  /// As wide as what stands in it.
  void print(const Rows& rows) const {
    std::vector<int> widths(rows.front().size(), 0);
    for (const std::vector<std::string>& row : rows) {
      for (std::size_t k = 0; k < row.size(); ++k)
        widths[k] = std::max(widths[k], static_cast<int>(row[k].size()) + 3);
    }
    for (const std::vector<std::string>& row : rows) sheet_.row(row, widths);
  }
  template <class Words>
  void texts(Rows& rows, const std::string& label, const Words& words) const {
    std::vector<std::string> cells{label};
    for (const ToldRun& run : runs_) cells.push_back(words(run));
    rows.push_back(cells);
  }

  const Sheet& sheet_;
  const std::vector<ToldRun>& runs_;
};

}  // namespace

void print_comparison(const Sheet& sheet, const std::vector<ToldRun>& runs,
                      const std::vector<input::InputDifference>& differences, bool all, bool brief) {
  const Comparison comparison(sheet, runs);
  comparison.heading();
  if (!brief) comparison.inputs(differences, all);
  comparison.outcome();
  if (!brief) comparison.layers();
  comparison.end();
}

}  // namespace dullcast::commands
