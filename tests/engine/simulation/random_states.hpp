#pragma once

#include <random>

#include "engine/simulation/state_layout.hpp"

namespace dullcast::testing {

using namespace simulation;  // the room that is tested

/// States of a bit drawn at random, the same ones on every run of a test.
class RandomStates {
 public:
  RandomStates(StateLayout layout, double depth, double most_worn)
      : layout_(layout), depth_(depth), most_worn_(most_worn) {}

  /// Hot and cold parts in any order, cutters worn anything up to the most (m).
  State draw() {
    State x = State::Zero(layout_.size());
    for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
      for (const thermal::CutterPart part : {thermal::table_near, thermal::table_rest})
        layout_.parts(x)(i, part) = between(290.0, 900.0);
      for (const thermal::CutterPart part : {thermal::carbide_near, thermal::carbide_rest})
        layout_.parts(x)(i, part) = between(290.0, 700.0);
      layout_.settled(x)(i) = between(290.0, 1000.0);
      layout_.worn(x)(i) = between(0.0, most_worn_);
      layout_.damage(x)(i) = between(0.0, 0.9);
      layout_.chip_hazard(x)(i) = between(0.0, 0.5);
    }
    x(layout_.body()) = between(288.0, 360.0);
    x(layout_.fluid()) = between(288.0, 350.0);
    x(layout_.warm()) = between(285.0, 450.0);
    x(layout_.water()) = between(0.5, 1.0);
    x(layout_.solids()) = between(0.0, 0.3);
    x(layout_.depth()) = depth_;
    for (const Eigen::Index energy : {layout_.spent(), layout_.carried(), layout_.left_in_rock()})
      x(energy) = between(0.0, 1e7);
    return x;
  }

  double between(double low, double high) {
    return std::uniform_real_distribution<double>(low, high)(numbers_);
  }

 private:
  StateLayout layout_;
  double depth_, most_worn_;
  std::mt19937_64 numbers_{20240229};
};

}  // namespace dullcast::testing
