#pragma once

#include <iosfwd>
#include <string>

#include "engine/learning/leave_one_out.hpp"
#include "engine/learning/what_was_told.hpp"
#include "engine/simulation/outcome.hpp"
#include "tools/commands/report_words.hpp"

namespace dullcast::commands {

/// All that one shelf has taught.
struct ShelfLesson {
  std::string shelf;  // its file
  std::vector<scenario::ShelvedBit> bits;
  learning::ShelfFit fit;
  learning::WhatWasTold told;
  scenario::Learned learned;
  std::vector<learning::BitJudged> judged;
};

/// What the numbers are now, what the shelf cannot tell, how well it tells the next bit, and which bits do
/// not fit; `brief` in ten lines.
void print_lesson(const Sheet& sheet, const ShelfLesson& lesson, bool brief);

/// When rework falls due on one scenario, low, central and high, before the shelf was read and now.
void print_both_bands(const Sheet& sheet, const std::string& title,
                      const std::vector<simulation::LifeEnd>& before,
                      const std::vector<simulation::LifeEnd>& now);

/// A line a bit: what was found beside what was predicted, before and as told by the others.
void write_lesson_csv(std::ostream& out, const ShelfLesson& lesson);

}  // namespace dullcast::commands
