#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::analysis {

/// What goes first when the pump stops and the driller does not notice.
enum class SurvivalEnd {
  table_ruined,     // heat damage of a cutter reaches 1
  table_lost,       // the bond between diamond and carbide fails
  cutter_lost,      // a cutter leaves its pocket
  blade_sheared,    // a blade breaks
  outlives,         // none of these as long as it was followed
  does_not_drill,   // the plan's weight does not drill this layer, so there is no steady state to start from
  fails_with_flow,  // something goes while the pump still runs
};
const char* survival_end_words(SurvivalEnd end);

/// How one layer's drilling survives without flow: an estimate of the model, whatever it is.
struct Survival {
  int layer = 0;
  std::string rock;
  double depth = 0.0;         // m, where the pump stops: inside the layer
  double weight = 0.0;        // N
  double rotary_speed = 0.0;  // rev/s
  SurvivalEnd end = SurvivalEnd::outlives;
  double time = 0.0;                 // s from the pump's stop to the end; or for how long it was followed
  int cutter = -1;                   // which goes first, -1 for none
  std::optional<double> standstill;  // s from the pump's stop until the bit no longer drills
  double steady_temperature = 0.0;   // K, hottest flat just before
  double hottest = 0.0;              // K, hottest flat from the pump's stop to the end
  /// Hottest flat at survival_times after the pump's stop, K; NaN where the end came first.
  std::array<double, 4> after{};
  std::optional<double> film;  // s until a film of steam first covers a cutter
  std::optional<double> dry;   // s until the last water at the bottom is gone
};
inline constexpr std::array<double, 4> survival_times{10.0, 30.0, 60.0, 120.0};  // s

/// Drilled this long with the pump on, so that heat and cuttings are steady when it stops [asm]; no further
/// than half way down the layer.
inline constexpr double survival_lead = 300.0;  // s
/// Followed no longer than this.
inline constexpr double survival_limit = 1800.0;  // s

/// One layer: the bit in `condition` drills it (see layer_hole), the pump stops after survival_lead, weight
/// and rotation stay as planned, and the rock goes on below the layer as long as it is followed. Failures at
/// median strength; nothing is drawn. Deterministic.
Survival survive_without_flow(const scenario::Scenario& scenario, int layer,
                              const simulation::BitCondition& condition);

/// Every layer of the column, on up to `threads` threads; the same values for any number of threads.
/// `progress` is told layers done and in all, from one thread at a time; it must not throw.
std::vector<Survival> survive_without_flow(const scenario::Scenario& scenario,
                                           const simulation::BitCondition& condition, int threads,
                                           const std::function<void(double, double)>& progress = {});

}  // namespace dullcast::analysis
