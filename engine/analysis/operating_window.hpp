#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/analysis/window_trial.hpp"

namespace dullcast::analysis {

/// How worn the bit is that a window is drawn for.
enum class WindowBit {
  as_it_starts,  // as the scenario's bit starts
  as_new,        // nothing worn, nothing lost
  half_worn      // half of what its rule allows (see worn_to_allowance), or as it starts where that is more
};

/// Ratio of weights within which an edge is found.
inline constexpr double edge_closeness = 1.02;

struct WindowOptions {
  int layer = 0;
  std::vector<double> weights;        // N, rising, above 0; empty: weights_to_try
  std::vector<double> rotary_speeds;  // rev/s, rising, above 0; empty: speeds_to_try
  std::optional<double> flow;         // m3/s; otherwise the plan's at the layer's middle
  WindowBit bit = WindowBit::as_it_starts;
  std::optional<WindowLimits> limits;  // otherwise usual_window_limits
  /// The plan's feed limit holds the bit back in the cells too. Without it the weight asked for is on the
  /// bit.
  bool keep_feed_limit = false;
  double seconds = window_trial;  // s of drilling a trial
  double closeness = edge_closeness;
  int threads = 1;
  /// Told trials done and in all (all is an estimate until the last), from one thread at a time; must not
  /// throw.
  std::function<void(double done, double all)> progress;
};

/// The window at one rotary speed: the lightest range of weights in which every weight tried is inside.
struct WindowEdge {
  double rotary_speed = 0.0;  // rev/s
  /// The greatest and the least weight found inside, N; none where no weight tried is inside.
  std::optional<double> greatest, least;
  /// What binds just above greatest and just below least, and the weights at which it was seen (N, within the
  /// closeness of the edge); `inside` and 0 where the search ends first. Where nothing is inside, `above` and
  /// weight_above are the cell that comes nearest to being so and what binds there.
  WindowLimit above = WindowLimit::inside, below = WindowLimit::inside;
  double weight_above = 0.0, weight_below = 0.0;
};

/// Weight on bit against rotary speed in one layer at one flow.
struct OperatingWindow {
  int layer = 0;
  std::string rock;
  double top = 0.0, bottom = 0.0;  // m
  double flow = 0.0;               // m3/s as a plan states it
  WindowLimits limits;
  std::vector<double> weights;        // N, rising
  std::vector<double> rotary_speeds;  // rev/s, rising
  std::vector<WindowCell> cells;      // by weight, then by speed
  std::vector<WindowEdge> edges;      // one a speed
  WindowCell planned;                 // the plan as it stands, with its feed limit, at this window's flow
  int trials = 0;                     // short holes drilled in all
  const WindowCell& cell(std::size_t weight, std::size_t speed) const {
    return cells.at(weight * rotary_speeds.size() + speed);
  }
};

/// Weights within practice: even steps of a round number of pounds-force, up to the weight limit; where there
/// is none, up to the plan's greatest stated weight.
std::vector<double> weights_to_try(const scenario::Scenario& scenario);
/// Speeds within practice: 10 to 100 rpm (scenario::usual_most_speed) in steps of 10. Beyond is tried only
/// when asked for.
std::vector<double> speeds_to_try();

/// Drills every cell of the grid as a short hole of its own, on up to `threads` threads: the same bits for
/// any number. A cell that cannot be calculated is kept with its failure. Then halves the weights at either
/// end of the window of each speed until inside and outside are within `closeness`; where no cell is inside
/// it looks between cells that different limits bind, and below the lightest. Throws std::out_of_range for a
/// layer that is not there, std::domain_error for weights, speeds, flow, seconds or a closeness that make no
/// sense (a closeness is above 1).
OperatingWindow operating_window(const scenario::Scenario& scenario, const WindowOptions& options);

/// The bit's condition that a window is drawn for.
simulation::BitCondition window_condition(const scenario::Scenario& scenario, WindowBit bit);

}  // namespace dullcast::analysis
