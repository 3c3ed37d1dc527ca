#include "engine/sweep/case_reader.hpp"

#include <algorithm>

namespace dullcast::sweep {

CaseReader::CaseReader(const SweepTexts& texts, const SweepPlan& plan, const input::ScenarioReader& reader,
                       Eigen::Index first, Eigen::Index first_drawn)
    : reader_(reader),
      file_(texts.scenario_file),
      tree_(input::ScenarioReader::parse(texts.scenario, texts.scenario_file)),
      fixed_(plan.fixed),
      moves_(moves_of(plan, first)),
      numbers_(drawn_numbers_of(plan, first_drawn)) {
  // What a move sets takes the place of what an earlier result said of the bit's start.
  for (const std::string& set : texts.start) {
    const std::string key = set.substr(0, set.find('='));
    if (std::any_of(moves_.begin(), moves_.end(), [&](const Move& move) { return move.path == key; }))
      std::erase(fixed_, set);
  }
}

scenario::Scenario CaseReader::read_paths(const Eigen::ArrayXd& inputs, input::NumbersRead* read) const {
  std::vector<std::string> sets = fixed_;
  for (const Move& move : moves_) sets.push_back(set_of(move, inputs));
  std::vector<input::Warning> warnings;  // said of the base scenario when the sweep began
  scenario::Scenario scenario = reader_.read_tree(tree_, file_, sets, warnings, read);
  // Plans are refused that ask for it; a path that got past that must not give the runs of a new bit.
  if (!scenario.bit.continues.empty() || scenario.calibrate_from)
    throw input::ScenarioErrors({file_ + ": goes on from an earlier result or learns from an inspected bit, "
                                         "which runs of a sweep cannot"});
  return scenario;
}

scenario::Scenario CaseReader::read(const Eigen::ArrayXd& inputs) const {
  scenario::Scenario scenario = read_paths(inputs, nullptr);
  scenario::for_each_number(scenario, [&](const std::string& name, scenario::Quantity& quantity) {
    for (const DrawnNumber& number : numbers_) {
      if (number.name == name) quantity = drawn_quantity(inputs(number.column));
    }
  });
  return scenario;
}

scenario::Quantity drawn_quantity(double value) {
  return {value, value, value, "given", "drawn by a sweep"};
}

}  // namespace dullcast::sweep
