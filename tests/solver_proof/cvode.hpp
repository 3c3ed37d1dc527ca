#pragma once

#include <functional>

#include "engine/simulation/state_layout.hpp"

namespace dullcast::testing {

/// CVODE of SUNDIALS (Hindmarsh et al., ACM TOMS 31(3), 2005) on one autonomous system: variable-order,
/// variable-step BDF, Newton with a dense Jacobian by difference quotients, its own root finding.
class Cvode {
 public:
  /// dx/dt at x; false where x is so wild that a shorter step should be tried.
  using Slope = std::function<bool(const simulation::State& x, simulation::State& slope)>;
  /// Values whose rise through 0 is an event.
  using Values = std::function<void(const simulation::State& x, double* values)>;

  /// An error of one step is held to `relative` |x| + `absolute` (root mean square over the entries).
  Cvode(const simulation::State& x, double relative, const simulation::State& absolute, Slope slope,
        int values = 0, Values watched = {});
  ~Cvode();
  Cvode(const Cvode&) = delete;
  Cvode& operator=(const Cvode&) = delete;

  /// Goes on from x at t, to stop at `until` (infinity: nowhere).
  void restart(double t, const simulation::State& x, double until);
  /// One step, or as far as an event or `until`. Returns the number of the value that rose through 0, or -1.
  int step();
  double time() const { return t_; }
  /// The state at a time within the last step, by CVODE's own polynomial.
  void state_at(double t, simulation::State& x) const;

  long steps() const;
  /// Throws std::runtime_error where CVODE gives up.
  static void check(int flag, const char* what);

 private:
  struct Memory;
  Memory* memory_;
  double t_ = 0.0;
  long steps_before_ = 0;
};

}  // namespace dullcast::testing
