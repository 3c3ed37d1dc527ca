#include "engine/learning/shelf_numbers.hpp"

#include <cmath>
#include <map>
#include <stdexcept>

#include "engine/analysis/number_effects.hpp"

namespace dullcast::learning {
namespace {

constexpr const char* from_bit_to_bit = "bit_to_bit_wear";

bool same_spread(const scenario::Quantity& one, const scenario::Quantity& other) {
  return one.low == other.low && one.central == other.central && one.high == other.high;
}

}  // namespace

ShelfNumbers shelf_numbers(const std::vector<scenario::ShelvedBit>& shelf) {
  ShelfNumbers numbers;
  std::map<std::string, Eigen::Index> known;
  std::vector<std::string> first_bit;
  for (const scenario::ShelvedBit& bit : shelf) {
    std::vector<Eigen::Index> own;
    scenario::Scenario run = bit.run;
    scenario::for_each_number(run, [&](const std::string& name, scenario::Quantity& quantity) {
      if (!(quantity.low < quantity.high)) return;
      if (name == from_bit_to_bit) {
        numbers.bit_spread = std::log(quantity.high / quantity.low) / (2.0 * ninety_percent_point);
        return;
      }
      const auto [place, is_new] = known.emplace(name, numbers.count());
      if (is_new) {
        numbers.names.push_back(name);
        numbers.before.push_back(quantity);
        first_bit.push_back(bit.found.bit);
      } else if (const auto k = static_cast<std::size_t>(place->second);
                 !same_spread(numbers.before[k], quantity)) {
        throw std::invalid_argument("bits " + first_bit[k] + " and " + bit.found.bit +
                                    " do not agree on what is known of " + name +
                                    "; a shelf is learnt from with one library, and own numbers alike in all "
                                    "its scenarios");
      }
      own.push_back(place->second);
    });
    numbers.of_bit.push_back(std::move(own));
  }
  return numbers;
}

scenario::Scenario with_coordinates(const scenario::Scenario& run, const ShelfNumbers& numbers,
                                    const Eigen::VectorXd& y) {
  std::vector<double> coordinates;
  for (const double at : y) coordinates.push_back(at / ninety_percent_point);
  return analysis::with_numbers_at(run, numbers.names, coordinates);
}

}  // namespace dullcast::learning
