#pragma once

#include <functional>
#include <optional>
#include <string>

#include "engine/input/numbers_read.hpp"
#include "engine/scenario/scenario.hpp"

/// Setting a number of a scenario that has been read, without reading it again: for sweeps, whose cases
/// differ by numbers.
namespace dullcast::input {

/// Where a number that a path names stands in a scenario, and what it may be.
struct NumberPlace {
  const base::Dimension* wanted = nullptr;
  base::Range range{};
  std::function<void(scenario::Scenario&, double)> set;  // SI, within the range
};

/// The place of the number at `path` ("plan.0.flow", "layers.2.density", as in --set), from a scenario that
/// was read from a text which states a plain number there, and from what that reading took. Setting another
/// number of the range there makes the scenario that reading that number would make, as long as
/// holds_together says so; it changes no other scenario than one of the same words.
///
/// Nothing for a path whose number is not known to do just that: the bit's layout, the ends of layers and
/// intervals, stones in a rock, whole numbers, whatever is new. Those must be read.
std::optional<NumberPlace> place_of(const std::string& path, const scenario::Scenario& read,
                                    const NumbersRead& numbers);

/// Whether the numbers that have places agree with each other, as the reader demands: where not, the text
/// must be read, for the reader has the words for what is wrong.
bool holds_together(const scenario::Scenario& scenario);

}  // namespace dullcast::input
