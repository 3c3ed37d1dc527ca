#pragma once

#include <optional>
#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/display.hpp"
#include "engine/scenario/scenario.hpp"

/// Words and lines that the parts of a report share.
namespace dullcast::commands {

/// A rule of the scenario in words.
std::string rule_words(const std::string& rule, const scenario::ReworkRules& rules);
/// "cutter 3", "cutters 3, 4 and 9"; cutters count from 0 inside and from 1 on paper.
std::string cutter_words(const std::vector<int>& cutters);
/// A library name as a person says it: "hard_sandstone" is hard sandstone.
std::string spoken(std::string name);
/// Tenths of an eighth: finer than anyone can read off a bit.
std::string grade_words(const std::optional<double>& grade);
std::string holes_words(int holes);
/// A chance or share to two figures: "3 %", "0.25 %", "under 0.01 %".
std::string percent_words(double share);
/// A time as a person says it: "45 s", "12 min".
std::string seconds_words(double seconds);

/// "15 deg" of radians.
std::string angle_words(double angle);
/// How a value of an SI unit, as columns and resolved texts name it, is shown; null for a unit that reports
/// leave in SI or show by what it is of (m, s).
const base::Shown* shown_unit(std::string_view si_unit);

/// Where a report is written, and in which units.
struct Sheet {
  std::ostream& out;
  base::ShownUnits units = base::ShownUnits::field;

  void heading(const std::string& text) const { out << text << "\n"; }
  void line(const std::string& label, const std::string& text) const;
  /// A row of cells under fixed widths; the last one runs free.
  void row(const std::vector<std::string>& cells, const std::vector<int>& widths) const;
};

/// Width that the names of a scenario's rocks take in a table.
int rock_column(const scenario::Scenario& scenario);

}  // namespace dullcast::commands
