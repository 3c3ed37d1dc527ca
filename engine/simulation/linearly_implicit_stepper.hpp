#pragma once

#include <Eigen/Core>
#include <algorithm>
#include <array>
#include <boost/numeric/odeint/stepper/controlled_step_result.hpp>
#include <boost/numeric/odeint/stepper/stepper_categories.hpp>
#include <boost/numeric/odeint/util/odeint_error.hpp>
#include <boost/numeric/odeint/util/unwrap_reference.hpp>
#include <cmath>
#include <limits>

#include "engine/simulation/stage_sums.hpp"

namespace dullcast::simulation {

/// Coefficients of the linearly implicit method, in the form that needs no product with the matrix:
///   (1/(h gamma) - A) U_i = f(x + sum_j a_ij U_j) + sum_j (c_ij/h) U_j,  x_1 = x + sum_i m_i U_i,
/// made from ROS34PW2 of Rang & Angermann, BIT Numerical Mathematics 45, 2005 [pub; coefficients from memory,
/// their order conditions are tested]: four stages, third order for any matrix A (a W-method), stiffly
/// accurate and L-stable, with an embedded second-order solution.
struct Ros34Pw2 {
  static constexpr int stages = 4;
  using Table = std::array<std::array<double, 4>, 4>;
  double gamma = 0.0;
  Table alpha{}, gamma_table{};  // of the published form
  std::array<double, 4> b{}, b_hat{};
  Table a{}, c{};  // of the form above
  std::array<double, 4> m{}, error{};
};

/// The published coefficients and the transformed ones.
Ros34Pw2 ros34pw2();

/// A controlled stepper in odeint's sense for systems whose stiff part is linear and known:
///   system(x, dxdt, t), system.linearise() at the last evaluation, system.thermal_matrix().factorise/solve,
///   system.error_scale(). The system is autonomous.
/// A step is accepted when max_i |error_i|/(tolerance scale_i) <= 1, and where the system can tell when its
/// end cannot be (cannot_be), unless it does. Allocates on construction only. It remembers the derivative at
/// the end of the last accepted step; call restart() when the system or the state has jumped.
class LinearlyImplicitStepper {
 public:
  using state_type = Eigen::VectorXd;
  using deriv_type = Eigen::VectorXd;
  using value_type = double;
  using time_type = double;
  using stepper_category = boost::numeric::odeint::controlled_stepper_tag;

  LinearlyImplicitStepper(Eigen::Index size, double tolerance)
      : coefficients_(ros34pw2()), tolerance_(tolerance) {
    for (auto* v : {&start_slope_, &end_slope_, &stage_, &slope_, &error_, &start_, &candidate_})
      v->setZero(size);
    for (auto& u : increments_) u.setZero(size);
  }

  /// Tries one step of size dt from x at t. On success x and t move on and dt is the size to try next; on
  /// failure only dt shrinks; throws odeint's step_adjustment_error below 1 ns. `system` may be a
  /// std::reference_wrapper.
  template <typename System>
  boost::numeric::odeint::controlled_step_result try_step(System system, state_type& x, time_type& t,
                                                          time_type& dt) {
    auto& sys = static_cast<typename boost::numeric::odeint::unwrap_reference<System>::type&>(system);
    const bool first = !has_slope_;
    prepare(sys, x, t);
    if constexpr (requires { sys.first_step(end_slope_); })
      if (first) dt = std::max(std::min(dt, sys.first_step(end_slope_)), 2.0 * least_step);
    const double error = step_to_candidate(sys, x, t, dt);
    if (!(error <= 1.0)) {
      ++refused_;
      const double share = share_after_refusal(error, dt);
      just_refused_ = true;
      refused_error_ = error;
      refused_size_ = dt;
      dt *= share;
      if (!(dt > least_step)) throw boost::numeric::odeint::step_adjustment_error("no step is small enough");
      return boost::numeric::odeint::fail;
    }
    accept(sys, x, t, dt);
    const double growth = safety * std::pow(std::max(error, 1e-9), -1.0 / 3.0);
    const double most_growth = gently_ > 0 ? gentle_growth : greatest_growth;
    dt *= std::clamp(growth, 0.2, just_refused_ ? 1.0 : most_growth);
    if constexpr (requires { sys.longest_step(end_slope_); })
      dt = std::max(std::min(dt, sys.longest_step(end_slope_)), 2.0 * least_step);
    dt *= share_after_many_alike(dt);
    just_refused_ = false;
    next_step_ = dt;
    return boost::numeric::odeint::success;
  }

  /// Takes the last accepted step again, but only `dt` long (0 < dt <= its size): for landing on an event.
  template <typename System>
  void retake(System system, state_type& x, time_type& t, time_type dt) {
    auto& sys = static_cast<typename boost::numeric::odeint::unwrap_reference<System>::type&>(system);
    x = start_;
    t = start_time_;
    sys(x, end_slope_, t);
    sys.linearise();
    step_to_candidate(sys, x, t, dt);
    --steps_;
    accept(sys, x, t, dt);
  }

  /// State inside the last accepted step, for the entries from `slow_from` on by cubic Hermite interpolation
  /// (third-order accurate, like the method) and for those before it by a straight line. The stiff entries
  /// come first: at the end of a long step their slopes are small differences of large terms, and a cubic
  /// would turn the error that the tolerance allows into swings.
  void interpolate(time_type t, const state_type& end, Eigen::Index slow_from, state_type& x) const {
    const double h = last_step_, s = (t - start_time_) / h;
    const double h00 = (1.0 + 2.0 * s) * (1.0 - s) * (1.0 - s), h10 = s * (1.0 - s) * (1.0 - s);
    const double h01 = s * s * (3.0 - 2.0 * s), h11 = s * s * (s - 1.0);
    const Eigen::Index slow = end.size() - slow_from;
    x.head(slow_from) = (1.0 - s) * start_.head(slow_from) + s * end.head(slow_from);
    x.tail(slow) = h00 * start_.tail(slow) + h10 * h * start_slope_.tail(slow) + h01 * end.tail(slow) +
                   h11 * h * end_slope_.tail(slow);
  }

  /// Forgets the derivative: the next step evaluates anew.
  void restart() { has_slope_ = false; }

  time_type last_start_time() const { return start_time_; }
  time_type last_end_time() const { return start_time_ + last_step_; }
  const state_type& last_start() const { return start_; }
  time_type next_step() const { return next_step_; }
  long steps() const { return steps_; }
  long refused() const { return refused_; }

 private:
  static constexpr double safety = 0.9;
  static constexpr double greatest_growth = 6.0, gentle_growth = 1.4;
  static constexpr double least_step = 1e-9;  // s: nothing in the model is that fast

  /// What to try of a refused step's size. Errors of a smooth state fall with its cube. After a leap what is
  /// quick has to find its place first, and the errors of steps that are long beside that hardly fall with
  /// their size: from the second refusal in a row on, the last two say by which power.
  double share_after_refusal(double error, double dt) const {
    constexpr double least_share = 0.1, usual_power = 3.0, least_power = 0.5;
    if (!std::isfinite(error)) return least_share;
    double power = usual_power;
    if (just_refused_ && std::isfinite(refused_error_) && dt < refused_size_)
      power = std::clamp(std::log(refused_error_ / error) / std::log(refused_size_ / dt), least_power,
                         usual_power);
    return std::max(least_share, safety * std::pow(error, -1.0 / power));
  }

  /// What to try of the size that follows the last one. Where a rate bends sharply, as where air warms past
  /// the temperature at which its mist begins to dry, steps that are long beside what it bends to can hold a
  /// state that is no balance, though within the tolerance of one: each stage overshoots the bend as far as
  /// the next comes back, and the error hardly changes with the size. Steps that all come out of one length
  /// tell that; a few short ones in between that grow slowly find the balance, from where long ones go on.
  double share_after_many_alike(double dt) {
    constexpr double alike = 0.05, short_share = 0.01;
    constexpr int many = 200, until_as_before = 16;
    gently_ = std::max(gently_ - 1, 0);
    alike_ = std::abs(dt - next_step_) <= alike * next_step_ ? alike_ + 1 : 0;
    if (alike_ < many) return 1.0;
    alike_ = 0;
    gently_ = until_as_before;
    return std::max(short_share, std::min(2.0 * least_step / dt, 1.0));
  }

  template <typename System>
  void prepare(System& sys, const state_type& x, time_type t) {
    if (has_slope_) return;
    sys(x, end_slope_, t);
    sys.linearise();
    has_slope_ = true;
  }

  /// Stages from x, where end_slope_ is f(x); leaves candidate_ and returns the error over the tolerance.
  template <typename System>
  double step_to_candidate(System& sys, const state_type& x, time_type t, time_type dt) {
    const auto& k = coefficients_;
    auto& matrix = sys.thermal_matrix();
    matrix.factorise(1.0 / (dt * k.gamma));
    start_slope_ = end_slope_;
    for (std::size_t i = 0; i < 4; ++i) {
      auto& u = increments_[i];
      if (i == 0) {
        u = start_slope_;
      } else {
        stage_ = x;
        stage_sums::add(increments_, k.a[i], i, stage_);
        sys(stage_, slope_, t);
        u = slope_;
        stage_sums::Weights per_time{};
        for (std::size_t j = 0; j < i; ++j) per_time[j] = k.c[i][j] / dt;
        stage_sums::add(increments_, per_time, i, u);
      }
      matrix.solve(u);
    }
    candidate_ = x;
    error_.setZero();
    stage_sums::add(increments_, k.m, 4, candidate_);
    if constexpr (requires { sys.cannot_be(candidate_); })
      if (sys.cannot_be(candidate_)) return std::numeric_limits<double>::infinity();
    stage_sums::add(increments_, k.error, 4, error_);
    const double worst = stage_sums::greatest_share(error_, sys.error_scale()) / tolerance_;
    return candidate_.allFinite() ? worst : std::numeric_limits<double>::infinity();
  }

  template <typename System>
  void accept(System& sys, state_type& x, time_type& t, time_type dt) {
    ++steps_;
    start_ = x;
    start_time_ = t;
    last_step_ = dt;
    if constexpr (requires { sys.undo_nothing(start_, candidate_); }) sys.undo_nothing(start_, candidate_);
    x = candidate_;
    t += dt;
    sys(x, end_slope_, t);
    sys.linearise();
    has_slope_ = true;
  }

  Ros34Pw2 coefficients_;
  double tolerance_;
  bool has_slope_ = false, just_refused_ = false;
  state_type start_slope_, end_slope_, stage_, slope_, error_, start_, candidate_;
  stage_sums::Stages increments_;
  double start_time_ = 0.0, last_step_ = 1.0, next_step_ = 0.0;
  double refused_error_ = 0.0, refused_size_ = 0.0;  // of the last refusal
  int alike_ = 0;                                    // steps in a row whose sizes were about the same
  int gently_ = 0;                                   // steps whose sizes are to grow slowly
  long steps_ = 0, refused_ = 0;
};

}  // namespace dullcast::simulation
