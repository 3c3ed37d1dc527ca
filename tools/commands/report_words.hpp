#pragma once

#include <ostream>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/display.hpp"
#include "engine/pages/run_words.hpp"
#include "engine/scenario/scenario.hpp"

/// Words and lines that the parts of a report share.
namespace dullcast::commands {

// What pages say too.
using pages::angle_words;
using pages::cutter_words;
using pages::grade_words;
using pages::holes_words;
using pages::percent_words;
using pages::rule_words;
using pages::seconds_words;
using pages::spoken;

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
