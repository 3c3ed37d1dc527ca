#include "engine/sweep/case_moves.hpp"

#include "engine/input/any_quantity.hpp"
#include "engine/input/located_yaml.hpp"

namespace dullcast::sweep {

std::vector<Move> moves_of(const SweepPlan& plan, Eigen::Index first) {
  std::vector<Move> moves;
  Eigen::Index column = first;
  for (const Factor& factor : plan.factors) {
    for (const FactorTarget& target : factor.targets) {
      for (std::size_t k = 0; k < target.paths.size(); ++k) {
        const bool words = !target.words.empty();
        moves.push_back({target.paths[k], column, target.scales ? target.base[k] : 1.0,
                         words ? nullptr : target.dimension, target.currency, target.words});
      }
      ++column;
    }
  }
  for (const UncertainValue& value : plan.draws.values) {
    for (const std::string& path : value.paths)
      moves.push_back({path, column, 1.0, value.dimension, value.currency, {}});
    ++column;
  }
  return moves;
}

double value_of(const Move& move, const Eigen::ArrayXd& inputs) {
  return inputs(move.column) * move.times;
}

std::string set_of(const Move& move, const Eigen::ArrayXd& inputs) {
  const double value = value_of(move, inputs);
  const std::string text = move.dimension ? input::text_of_value(value, *move.dimension, move.currency)
                                          : input::yaml_quoted(move.words[static_cast<std::size_t>(value)]);
  return move.path + "=" + text;
}

std::vector<DrawnNumber> drawn_numbers_of(const SweepPlan& plan, Eigen::Index first_drawn) {
  std::vector<DrawnNumber> numbers;
  Eigen::Index column = first_drawn;
  for (const UncertainValue& value : plan.draws.values) {
    if (!value.number.empty()) numbers.push_back({value.number, column});
    ++column;
  }
  return numbers;
}

}  // namespace dullcast::sweep
