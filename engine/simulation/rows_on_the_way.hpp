#pragma once

#include <vector>

#include "engine/simulation/run_in_progress.hpp"

namespace dullcast::simulation {

/// Rows that the program chooses itself: at most so many a passage (a layer, or the part of one with settings
/// of its own), and no more in all than this, so that a file of a long run stays small.
inline constexpr int most_chosen_rows = 40, most_chosen_rows_in_all = 3000;

/// Which history rows are kept on the way from one end of a layer to the other; a mishap keeps each step
/// beside them. With `output_every`: at even depths, with 0 none. Without it the program chooses: a quarter
/// of its rows at even depths; a half while heat is followed, at times since the passage began that grow by a
/// ratio, so that they are densest where heat moves fastest; a quarter, in both cases, where heat is taken at
/// its balance: one row before it moves there without any time, one right after. What the run computed lies
/// between rows at one instant as a step, and is no ramp.
/// It only looks: the run's numbers are the same to the last bit whatever is kept.
class RowsOnTheWay {
 public:
  /// For a run of so many passages, 1 or more.
  RowsOnTheWay(const scenario::Stepping& stepping, std::size_t passages, Rows rows);

  /// A passage begins at `time` (s), from `top` to `bottom` (m).
  void enter(double top, double bottom, double time);
  /// Inside the step just taken, that ends at `run`'s state; its clock still stands where the step began.
  void record(const StepTaken& step, RunInProgress& run);
  /// Heat has moved to its balance without any time, from `before` to the run's state.
  void settled(const State& before, RunInProgress& run);

 private:
  /// Places (on the step's own clock) of rows that are due at even depths.
  void find_depths(const StepTaken& step, const RunInProgress& run);
  /// The same of rows that are due in time.
  void find_times(const StepTaken& step, const RunInProgress& run);

  double every_;                                      // m, of rows that the scenario asks for
  int depths_ = 0, most_times_ = 0, most_jumps_ = 0;  // rows a passage
  double growth_ = 1.0;                               // of the times between rows
  // Of the passage:
  double spacing_ = 0.0, next_depth_ = 0.0, bottom_ = 0.0;  // m
  double last_depth_ = 0.0;                                 // m, of the row made last
  double next_time_ = 0.0, since_ = 0.0;                    // s
  int times_ = 0, jumps_ = 0;                               // rows still to be had
  bool at_start_ = true;      // the row made there shows the state before heat has moved
  bool begins_anew_ = false;  // heat moves again from the step that comes
  std::vector<double> places_;
};

}  // namespace dullcast::simulation
