#pragma once

#include <cmath>

#include "engine/learning/shelf_fit.hpp"
#include "engine/statistics/counter_random.hpp"
#include "support/short_scenario.hpp"

/// Synthetic bits whose truth is known: drilled by the engine with planted numbers, then read as an inspector
/// reads them. Every number is invented.
namespace dullcast::testing {

inline scenario::Quantity spread_between(double low, double central, double high) {
  return {low, central, high, "asm", "invented for tests"};
}

/// Uniform and normal draws that follow from a seed alone.
class Drawing {
 public:
  explicit Drawing(std::uint64_t seed) : seed_(seed) {}
  double normal() { return statistics::standard_normal_at(seed_, 7, next_++); }
  double uniform() { return statistics::uniform_at(seed_, 8, next_++); }

 private:
  std::uint64_t seed_, next_ = 0;
};

/// A few short holes through limestone over sandstone by a small bit: five uncertain numbers and the bit's
/// own pace. `kind` varies the ground and the weight, so that rocks can be told apart.
inline scenario::Scenario fleet_run(int kind) {
  scenario::Scenario s = short_scenario();
  s.stepping.relative_tolerance = 1e-2;
  s.stepping.output_every = 0.0;
  s.numbers.abrasion_coefficient = spread_between(1e-15, 2e-15, 4e-15);
  s.numbers.bit_to_bit_wear = spread_between(0.825, 1.0, 1.212);
  s.numbers.roughness_impacts = spread_between(0.4, 1.0, 2.5);
  s.bit.kinds.front().grade.wear_resistance = spread_between(0.8, 1.0, 1.25);
  s.column.layers[0].rock.cerchar_abrasivity = spread_between(0.6, 1.0, 1.6);
  s.column.layers[1].rock.cerchar_abrasivity = spread_between(1.8, 2.5, 3.5);
  s.rules = {};
  s.rules.worn_height = 5.0;
  s.repeat.stop_at = scenario::StopAt::last_hole;
  s.repeat.holes = 2 + kind % 3;
  // The boundary between the two rocks goes up and down.
  const double bottom = s.column.layers[1].bottom, share = 0.2 + 0.2 * (kind % 4);
  s.column.layers[0].bottom = s.column.layers[1].top = share * bottom;
  return s;
}

/// Truth by the prior's own law: coordinates of the numbers.
inline Eigen::VectorXd planted_numbers(const learning::ShelfNumbers& numbers, Drawing& draw) {
  Eigen::VectorXd y(numbers.count());
  for (Eigen::Index k = 0; k < y.size(); ++k) y(k) = draw.normal();
  return y;
}

/// Reads a bit that wore as `truth` says, by the law's own scatter: heights of every second cutter, grades,
/// and which edges are chipped.
inline scenario::InspectedBit read_off(const learning::PredictedBit& truth, const learning::ReadingLaw& law,
                                       bool heights, Drawing& draw) {
  scenario::InspectedBit found;
  const Eigen::Index n = truth.radius.size();
  found.cutters.resize(static_cast<std::size_t>(n));
  found.measurement_error = 5e-5;
  const Eigen::ArrayXd worn = truth.worn_height();
  const double frailty = law.chip_spread * draw.normal();
  for (Eigen::Index i = 0; i < n; ++i) {
    scenario::CutterSeen& cutter = found.cutters[static_cast<std::size_t>(i)];
    const double hazard = std::exp(truth.logs(i, learning::chip_hazard) + frailty);
    cutter.chipped = draw.uniform() > std::exp(-hazard);
    const double scatter = std::hypot(found.measurement_error, law.cutter_scatter * worn(i)) * draw.normal();
    if (heights && i % 2 == 0) cutter.worn_height = std::max(0.0, worn(i) + scatter);
  }
  const std::vector<bool> none(static_cast<std::size_t>(n), false);
  for (const bool outer : {false, true}) {
    const auto grade = learning::zone_grade(truth, worn, none, outer);
    if (!grade) continue;
    const double seen = std::clamp(std::round(*grade + law.grade_error * draw.normal()), 0.0, 8.0);
    (outer ? found.outer_grade : found.inner_grade) = scenario::GradeSeen{seen, false};
  }
  return found;
}

/// A shelf of `count` bits from planted numbers.
struct PlantedShelf {
  std::vector<scenario::ShelvedBit> bits;
  Eigen::VectorXd truth;  // coordinates
};

inline PlantedShelf planted_shelf(int count, std::uint64_t seed) {
  PlantedShelf shelf;
  Drawing draw(seed);
  for (int k = 0; k < count; ++k) {
    scenario::ShelvedBit bit;
    bit.run = fleet_run(k);
    bit.found.bit = "B" + std::to_string(k + 1);
    shelf.bits.push_back(std::move(bit));
  }
  const learning::ShelfNumbers numbers = learning::shelf_numbers(shelf.bits);
  shelf.truth = planted_numbers(numbers, draw);
  learning::ReadingLaw law;
  law.bit_spread = numbers.bit_spread;
  for (int k = 0; k < count; ++k) {
    scenario::ShelvedBit& bit = shelf.bits[static_cast<std::size_t>(k)];
    scenario::Scenario true_run = learning::with_coordinates(bit.run, numbers, shelf.truth);
    // The bit's own pace acts in the engine, not as the likelihood's factor on the end of the run.
    true_run.numbers.bit_to_bit_wear.central = std::exp(law.bit_spread * draw.normal());
    const std::string name = bit.found.bit;
    bit.found = read_off(learning::predict(true_run), law, k % 3 != 2, draw);
    bit.found.bit = name;
  }
  return shelf;
}

}  // namespace dullcast::testing
