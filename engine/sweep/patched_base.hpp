#pragma once

#include <optional>
#include <vector>

#include "engine/input/number_place.hpp"
#include "engine/scenario/number_places.hpp"
#include "engine/sweep/case_reader.hpp"

namespace dullcast::sweep {

/// A scenario that was read once, from which the cases that differ from it only by numbers of known places
/// are made by copying it and setting them. What it makes is what CaseReader makes, to the last bit; where it
/// cannot be sure of that it makes nothing.
class PatchedBase {
 public:
  /// Reads the case with these inputs and finds the places of the moves whose columns are `patched`. Before
  /// it is used, a case beside this one is made both ways and compared. Never throws for a case that makes no
  /// scenario: then, and whenever a place or the comparison fails, it is not usable.
  PatchedBase(const CaseReader& reader, const Eigen::ArrayXd& inputs, const std::vector<bool>& patched);

  bool usable() const { return usable_; }

  /// The scenario of the case with these inputs, of which those that are not patched must be as in the
  /// constructor's; it has no resolved text. `into` is written over (its memory is used again). False, and
  /// `into` left as it may be, where a number is out of its range or does not agree with another: the case
  /// must be read. Only where usable.
  bool make(const Eigen::ArrayXd& inputs, scenario::Scenario& into) const;

 private:
  bool find_places(const CaseReader& reader, const std::vector<bool>& patched,
                   const input::NumbersRead& read);
  bool in_range(Eigen::Index column, const Eigen::ArrayXd& inputs) const;
  bool agrees_beside(const CaseReader& reader, const Eigen::ArrayXd& inputs,
                     const std::vector<bool>& patched) const;

  struct PatchedMove {
    Move move;
    input::NumberPlace place;
  };
  struct PatchedNumber {
    Eigen::Index column = 0;
    std::vector<scenario::QuantityPlace> places;
  };
  scenario::Scenario base_;
  std::vector<PatchedMove> moves_;
  std::vector<PatchedNumber> numbers_;
  bool usable_ = false;
};

/// For every column of a case's inputs whether it only moves numbers of known places, as a reading of the
/// case with these inputs finds them; all columns that no path belongs to do. Throws ScenarioErrors where the
/// case makes no scenario.
std::vector<bool> patched_columns(const CaseReader& reader, const Eigen::ArrayXd& inputs);

}  // namespace dullcast::sweep
