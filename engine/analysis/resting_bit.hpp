#pragma once

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/drilling_system.hpp"

namespace dullcast::analysis {

/// A scenario's bit as it starts, cold and clean, put on any drilling interval of its column under any flow:
/// what it does there at once, before anything has warmed or filled. Keeps the scenario: it must outlive
/// this.
class RestingBit {
 public:
  explicit RestingBit(const scenario::Scenario& scenario);

  const std::vector<simulation::DrillingInterval>& intervals() const { return models_.intervals; }
  /// At the top of an interval as planned, or with its flow changed (m3/s). Valid until the next call.
  const simulation::Evaluation& on(const simulation::DrillingInterval& planned);
  const simulation::Evaluation& on(const simulation::DrillingInterval& planned, double flow);

 private:
  const scenario::Scenario* scenario_;
  simulation::RunModels models_;
  simulation::DrillingSystem system_;
  simulation::DrillingInterval changed_;
  simulation::State x_, slope_;
};

}  // namespace dullcast::analysis
