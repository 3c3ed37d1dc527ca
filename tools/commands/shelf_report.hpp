#pragma once

#include "engine/analysis/shelf_outlook.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

/// A table of what each bit of a shelf did and was found like, beside what was forecast of it, with a last
/// line of medians and one of all counts together; `brief` prints the medians and the bits that lie farthest
/// from their forecast. `beside` has one entry a record.
void print_shelf(const Sheet& sheet, const std::string& file, const std::vector<scenario::ShelvedBit>& shelf,
                 const std::vector<analysis::BesideForecast>& beside, bool brief);

/// The same as comma-separated values, one line a record, SI units in the header; empty cells are what was
/// not looked at. The last line is the medians.
void write_shelf_csv(std::ostream& out, const std::vector<scenario::ShelvedBit>& shelf,
                     const std::vector<analysis::BesideForecast>& beside);

}  // namespace dullcast::commands
