#pragma once

#include "engine/run/drilling_system.hpp"
#include "engine/scenario/scenario.hpp"

namespace dullcast {

/// A scenario's bit as it starts, cold and clean, put on any stretch of its column under any flow: what it
/// does there at once, before anything has warmed or filled. Keeps the scenario: it must outlive this.
class RestingBit {
 public:
  explicit RestingBit(const Scenario& scenario);

  const std::vector<Stretch>& stretches() const { return models_.stretches; }
  /// At the top of a stretch as planned, or with its flow changed (m3/s). Valid until the next call.
  const Instant& on(const Stretch& planned);
  const Instant& on(const Stretch& planned, double flow);

 private:
  const Scenario* scenario_;
  RunModels models_;
  DrillingSystem system_;
  Stretch changed_;
  State x_, slope_;
};

}  // namespace dullcast
