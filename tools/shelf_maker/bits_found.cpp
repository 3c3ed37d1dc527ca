#include "tools/shelf_maker/bits_found.hpp"

#include <algorithm>
#include <cmath>

#include "engine/base/words.hpp"
#include "engine/simulation/run.hpp"
#include "engine/statistics/counter_random.hpp"

namespace dullcast::shelf_maker {
namespace {

constexpr unsigned long inspections = 1000;  // the first stream of draws for what is found

bool among(const std::vector<std::size_t>& numbers, std::size_t number) {
  return std::find(numbers.begin(), numbers.end(), number) != numbers.end();
}

void scale(scenario::Quantity& quantity, double factor) {
  quantity.low *= factor;
  quantity.central *= factor;
  quantity.high *= factor;
}

/// What the bit truly did, and in what.
scenario::Scenario truth_of(scenario::Scenario run, std::size_t number, unsigned long seed,
                            const Planted& planted) {
  const double scatter = planted.wear_scatter * statistics::standard_normal_at(seed, inspections, number);
  scale(run.numbers.abrasion_coefficient, planted.abrasion_factor * std::exp(scatter));
  for (scenario::Layer& layer : run.column.layers) {
    if (layer.rock.name == planted.odd_rock) scale(layer.rock.cerchar_abrasivity, planted.odd_rock_factor);
  }
  if (run.bit.lot.name == planted.weak_lot) run.bit.lot.edge_share.central = planted.weak_edge_share;
  if (among(planted.short_of_flow, number)) {
    for (scenario::OperatingInterval& interval : run.plan) interval.flow *= 0.2;
  }
  if (among(planted.more_holes, number)) run.repeat.holes *= 2;
  run.random_events = {true, static_cast<long>(seed + number)};
  run.stepping.relative_tolerance = 1e-3;
  return run;
}

/// As a person writes a calliper's reading: tenths of a millimetre.
std::string tenths(double height) {
  return base::plain_number(0.1 * std::max(0.0, std::round(1e4 * height))) + " mm";
}

std::string grade_text(const std::optional<double>& grade, double error) {
  if (!grade) return {};
  return std::to_string(std::clamp(static_cast<int>(std::lround(*grade + error)), 0, 8));
}

std::string counted(const Eigen::ArrayXi& marks) {
  return std::to_string((marks > 0).count());
}

}  // namespace

BitFound drill_and_inspect(const scenario::Scenario& recorded, std::size_t number, unsigned long seed,
                           const Planted& planted) {
  const simulation::BitCondition bit =
      simulation::run(truth_of(recorded, number, seed, planted), {}, simulation::Rows::left_out).end;
  const auto normal = [&](std::uint64_t counter) {
    return statistics::standard_normal_at(seed, inspections + 1 + number, counter);
  };
  BitFound found;
  found.inner = grade_text(bit.inner_dull_grade, planted.grader_error * normal(0));
  found.outer = grade_text(bit.outer_dull_grade, planted.grader_error * normal(1));
  if (number % 3 == 0) {  // grades alone, every other time with what was broken
    if (number % 2 == 0) {
      found.chipped = counted(bit.chips * (1 - bit.lost));
      found.lost = counted(bit.lost);
    }
    return found;
  }
  const Eigen::Index all = bit.worn_height.size();
  for (Eigen::Index i = 0; i < all; ++i) {
    const double reading =
        bit.worn_height(i) + planted.calliper_error * normal(2 + static_cast<std::uint64_t>(i));
    // Some shops measure every third cutter and the outermost ones only.
    const bool measured = number % 3 == 1 || i % 3 == 0 || i + 4 >= all;
    std::string text =
        reading > planted.calliper_reach ? "at least " + tenths(planted.calliper_reach) : tenths(reading);
    if (bit.lost(i) > 0) {
      text = "lost";
    } else if (bit.table_gone(i) > 0) {
      text = "table gone";
    } else if (bit.chips(i) > 0) {
      text = measured ? "chipped " + text : "chipped";
    } else if (!measured) {
      text = "not measured";
    }
    found.cutters.push_back(text);
  }
  if (number % 5 == 1) found.inner = found.outer = "";  // measured, not graded
  return found;
}

}  // namespace dullcast::shelf_maker
