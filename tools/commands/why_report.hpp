#pragma once

#include <iosfwd>
#include <string>
#include <vector>

#include "engine/learning/lot_comparison.hpp"
#include "engine/learning/worth_looking.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

/// What `dullcast why` found of one bit.
struct WhyFigures {
  scenario::InspectedBit found;
  std::vector<learning::Cause> causes;
  learning::CauseOdds odds;
  std::vector<learning::WorthLooking> looks;
  int draws = 0, failed_runs = 0;
};

/// The likeliest cause in one line, then each one's probability, what spoke for and against, and what would
/// have told the first two apart. `brief`: only the line and what to look for.
void print_why(const Sheet& sheet, const WhyFigures& figures, bool brief);

/// One row a cause as comma-separated values.
void write_why_csv(std::ostream& out, const WhyFigures& figures);

/// Lots of a shelf beside each other.
void print_lots(const Sheet& sheet, const std::vector<learning::LotRecordSeen>& lots, bool brief);

/// One row a lot as comma-separated values.
void write_lots_csv(std::ostream& out, const std::vector<learning::LotRecordSeen>& lots);

}  // namespace dullcast::commands
