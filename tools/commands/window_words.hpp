#pragma once

#include <string>
#include <vector>

#include "engine/analysis/operating_window.hpp"
#include "engine/input/units.hpp"

/// The words that `dullcast window` takes.
namespace dullcast::commands {

/// Values in SI from "2000 lbf to 8000 lbf in 7" (evenly spaced, both ends among them; the first unit may be
/// left out: "2000 to 8000 lbf in 7") or from one value alone, "5000 lbf". `option` is what the sentence of a
/// refusal begins with. Throws WrongWords for anything else, ends that do not rise from above 0, and fewer
/// than 2 or more than 200 values.
std::vector<double> read_range(const std::string& option, const std::string& text,
                               const base::Dimension& wanted, const input::UnitParser& units);

/// One value, 0 or more. Throws WrongWords.
double read_value(const std::string& option, const std::string& text, const base::Dimension& wanted,
                  const input::UnitParser& units);

/// "new", "half" or "start". Throws WrongWords.
analysis::WindowBit read_window_bit(const std::string& text);

/// Changes one limit from "heat=300 degC" or "wear=none". Throws WrongWords.
void read_limit(const std::string& text, const input::UnitParser& units, analysis::WindowLimits& limits);

}  // namespace dullcast::commands
