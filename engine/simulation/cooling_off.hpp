#pragma once

#include <vector>

#include "engine/simulation/drilling_system.hpp"

namespace dullcast::simulation {

/// How a bit off bottom cools. Where no surface boils its network is linear but for diamond's heat capacity
/// and the convection's weak dependence on temperature, so a long step is taken in closed form,
///   x(h) = x + h phi(h A) f(x),  phi(z) = (e^z - 1)/z,
/// A linearised where the step begins. Every rate of A is real and below 0, so phi is wanted on the half line
/// only: with the resolvent U = (I - h A/b)^-1 it is U/b times a smooth function g of U, which is a
/// polynomial in U to rounding of the tolerance, each power another solve with one factorisation (a rational
/// function with one real pole: Andersson, J. Approx. Theory 32, 1981 [pub]). It is exact at both ends, for
/// what has not begun to cool and for what has cooled off. What f at the step's end is beside A's says how
/// wrong the step is.
class CoolingOff {
 public:
  /// Temperatures may be wrong by `tolerance` times their error scale in each step.
  CoolingOff(DrillingSystem& lifted, double tolerance);

  /// Moves the fast entries of x on by `seconds`. False where it has to be followed in time: water might
  /// boil, or no step is small enough.
  bool cool(State& x, double seconds);

  /// Coefficients of g(u) = (1 - e^-y)(1 + b/y), y = b (1/u - 1), in Chebyshev polynomials of 2u - 1, 0 < u <
  /// 1, by interpolation at their nodes.
  static std::vector<double> series(int degree, double pole);
  /// So many, and the pole b, leave phi wrong by less than a sixtieth of the tolerance.
  static int degree_for(double tolerance);
  static double pole_for(int degree) { return 0.85 * degree; }

 private:
  bool has_to_be_followed(const State& x) const;
  void step(double h);
  double wrong(double h);

  DrillingSystem* lifted_;
  double tolerance_, pole_;
  std::vector<double> series_;
  Eigen::Index fast_;
  State slope_, end_, end_slope_, last_, before_last_, sum_, work_;
};

}  // namespace dullcast::simulation
