#pragma once

#include <string>
#include <vector>

#include "engine/input/scenario_reader.hpp"
#include "engine/sweep/case_moves.hpp"
#include "engine/sweep/sweep_plan_reader.hpp"

namespace dullcast::sweep {

/// Makes a case's scenario the long way: the plan's scenario is read again with the case's values set in it.
/// What this makes, and what it says where a case makes no scenario, is what a case is.
class CaseReader {
 public:
  /// `first` and `first_drawn` are the columns of a case's inputs at which factors and draws begin. Throws
  /// ScenarioErrors when the scenario is no YAML map. Keeps `reader`.
  CaseReader(const SweepTexts& texts, const SweepPlan& plan, const input::ScenarioReader& reader,
             Eigen::Index first, Eigen::Index first_drawn);

  const std::vector<Move>& moves() const { return moves_; }
  const std::vector<DrawnNumber>& numbers() const { return numbers_; }

  /// The scenario with its paths set, numbers drawn by name left as they are, without its resolved text. What
  /// was read where goes to `read`, where that is not null. Throws ScenarioErrors.
  scenario::Scenario read_paths(const Eigen::ArrayXd& inputs, input::NumbersRead* read) const;

  /// The same with the numbers drawn by name.
  scenario::Scenario read(const Eigen::ArrayXd& inputs) const;

 private:
  const input::ScenarioReader& reader_;
  std::string file_;
  input::YamlValue tree_;
  std::vector<std::string> fixed_;
  std::vector<Move> moves_;
  std::vector<DrawnNumber> numbers_;
};

/// What a sweep says of a number that it has drawn by its name.
scenario::Quantity drawn_quantity(double value);

}  // namespace dullcast::sweep
