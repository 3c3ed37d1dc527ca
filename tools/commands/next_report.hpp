#pragma once

#include <iosfwd>
#include <string>

#include "engine/analysis/next_hole.hpp"
#include "engine/analysis/wear_flip.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

/// What `dullcast next` found.
struct NextFigures {
  std::string found;  // how the bit is taken to be, one line; empty for a new one
  analysis::NextHole hole;
  analysis::WearFlip flip;
};

/// The answer in one line, then (not in `brief`) each choice's chance and cost line by line, and where the
/// answer flips.
void print_next(const Sheet& sheet, const scenario::Scenario& scenario, const NextFigures& figures,
                bool brief);

/// One row a choice as comma-separated values; money in the scenario's own.
void write_next_csv(std::ostream& out, const NextFigures& figures);

}  // namespace dullcast::commands
