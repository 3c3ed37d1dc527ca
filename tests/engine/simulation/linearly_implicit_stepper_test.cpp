#include "engine/simulation/linearly_implicit_stepper.hpp"

#include <gtest/gtest.h>

#include <Eigen/Dense>
#include <algorithm>
#include <array>
#include <boost/numeric/odeint/integrate/integrate_adaptive.hpp>
#include <boost/numeric/odeint/integrate/integrate_n_steps.hpp>
#include <boost/numeric/odeint/iterator/adaptive_time_iterator.hpp>
#include <boost/numeric/odeint/stepper/runge_kutta4.hpp>
#include <cmath>
#include <complex>
#include <functional>
#include <limits>
#include <type_traits>
#include <vector>

namespace dullcast::simulation {
namespace {

namespace odeint = boost::numeric::odeint;
using Vector = Eigen::VectorXd;
using Matrix = Eigen::MatrixXd;

/// The method as matrices.
struct Method {
  Ros34Pw2 k = ros34pw2();
  Eigen::Matrix4d alpha, gamma;
  Eigen::Vector4d b, b_hat, e = Eigen::Vector4d::Ones();
  Method() {
    for (int i = 0; i < 4; ++i) {
      const auto row = static_cast<std::size_t>(i);
      b(i) = k.b[row];
      b_hat(i) = k.b_hat[row];
      for (int j = 0; j < 4; ++j) {
        alpha(i, j) = k.alpha[row][static_cast<std::size_t>(j)];
        gamma(i, j) = k.gamma_table[row][static_cast<std::size_t>(j)];
      }
    }
  }
};

/// The coefficients are published to 16 digits; conditions sum a dozen terms of order 1.
constexpr double digits = 2e-15;

// Order conditions of a W-method, one for every tree whose inner nodes carry either f' or the matrix A:
// Steihaug & Wolfbrandt, Math. Comp. 33, 1979; Hairer & Wanner, Solving Ordinary Differential Equations II,
// sec. IV.7 (conditions derived here by expansion, from memory that they are listed there).
TEST(Ros34Pw2, MeetTheConditionsOfAWMethodToOrderThree) {
  const Method m;
  EXPECT_NEAR(m.b.sum(), 1.0, digits);
  const Eigen::Vector4d alpha_e = m.alpha * m.e, gamma_e = m.gamma * m.e;
  EXPECT_NEAR(m.b.dot(alpha_e), 1.0 / 2.0, digits);
  EXPECT_NEAR(m.b.dot(gamma_e), 0.0, digits);
  EXPECT_NEAR(m.b.dot(alpha_e.cwiseProduct(alpha_e)), 1.0 / 3.0, digits);
  EXPECT_NEAR(m.b.dot(m.alpha * alpha_e), 1.0 / 6.0, digits);
  EXPECT_NEAR(m.b.dot(m.alpha * gamma_e), 0.0, digits);
  EXPECT_NEAR(m.b.dot(m.gamma * alpha_e), 0.0, digits);
  EXPECT_NEAR(m.b.dot(m.gamma * gamma_e), 0.0, digits);
}

TEST(Ros34Pw2, EmbeddedSolutionIsOfOrderTwoForAnyMatrixAndNotOfOrderThree) {
  const Method m;
  EXPECT_NEAR(m.b_hat.sum(), 1.0, digits);
  EXPECT_NEAR(m.b_hat.dot(m.alpha * m.e), 1.0 / 2.0, digits);
  EXPECT_NEAR(m.b_hat.dot(m.gamma * m.e), 0.0, digits);
  // An estimate that is itself of order three would see no error.
  const Eigen::Vector4d alpha_e = m.alpha * m.e;
  EXPECT_GT(std::abs(m.b_hat.dot(alpha_e.cwiseProduct(alpha_e)) - 1.0 / 3.0), 1e-2);
}

TEST(Ros34Pw2, AreStifflyAccurate) {
  const Method m;
  for (int j = 0; j < 4; ++j) EXPECT_NEAR(m.alpha(3, j) + m.gamma(3, j), m.b(j), digits) << j;
  EXPECT_NEAR(m.alpha.row(3).sum(), 1.0, digits);
  for (int i = 0; i < 4; ++i) {
    EXPECT_EQ(m.gamma(i, i), m.k.gamma);
    for (int j = i; j < 4; ++j) EXPECT_EQ(m.alpha(i, j), 0.0);
    for (int j = i + 1; j < 4; ++j) EXPECT_EQ(m.gamma(i, j), 0.0);
  }
}

/// R(z) = 1 + z b^T (I - z (alpha + Gamma))^-1 e, the growth of one step on x' = lambda x with A = lambda.
std::complex<double> stability(const Method& m, std::complex<double> z) {
  const Eigen::Matrix4cd beta = (m.alpha + m.gamma).cast<std::complex<double>>();
  const Eigen::Matrix4cd stages = Eigen::Matrix4cd::Identity() - z * beta;
  const Eigen::Vector4cd answer = stages.partialPivLu().solve(m.e.cast<std::complex<double>>().eval());
  return 1.0 + z * (m.b.cast<std::complex<double>>().array() * answer.array()).sum();
}

TEST(Ros34Pw2, GiveAnLStableMethod) {
  const Method m;
  EXPECT_NEAR(1.0 - m.b.dot((m.alpha + m.gamma).partialPivLu().solve(m.e)), 0.0, 1e-14);
  EXPECT_LT(std::abs(stability(m, -1e8)), 1e-6);
  // A-stable: poles lie right, so |R| <= 1 on the imaginary axis means |R| <= 1 left of it.
  for (double y = 1e-3; y < 1e5; y *= 1.02) {
    EXPECT_LE(std::abs(stability(m, {0.0, y})), 1.0 + 1e-12) << "at " << y << " i";
  }
  for (double z = -1e-3; z > -1e6; z *= 1.1) EXPECT_LT(std::abs(stability(m, z)), 1.0) << "at " << z;
}

/// The published form: stages k_i from f and a matrix, U not in sight.
Vector published_step(const std::function<Vector(const Vector&)>& f, const Matrix& A, const Vector& x,
                      double h) {
  const Method m;
  const Matrix identity = Matrix::Identity(x.size(), x.size());
  std::vector<Vector> slopes;
  Vector next = x;
  for (int i = 0; i < 4; ++i) {
    Vector at = x, coupling = Vector::Zero(x.size());
    for (int j = 0; j < i; ++j) {
      at += h * m.alpha(i, j) * slopes[static_cast<std::size_t>(j)];
      coupling += m.gamma(i, j) * slopes[static_cast<std::size_t>(j)];
    }
    slopes.emplace_back((identity - h * m.k.gamma * A).partialPivLu().solve(f(at) + h * A * coupling));
    next += h * m.b(i) * slopes.back();
  }
  return next;
}

/// (s I - A) y = b by a dense solve.
class DenseMatrix {
 public:
  explicit DenseMatrix(Matrix A) : A_(std::move(A)) {}
  void factorise(double shift) { lu_.compute(shift * Matrix::Identity(A_.rows(), A_.cols()) - A_); }
  void solve(Vector& b) const {
    const Vector y = lu_.solve(b);
    b = y;
  }

 private:
  Matrix A_;
  Eigen::PartialPivLU<Matrix> lu_;
};

/// A system of the kind that the stepper drives, from a function and any matrix.
class TestSystem {
 public:
  TestSystem(std::function<void(const Vector&, Vector&)> f, Matrix A, Vector scale)
      : f_(std::move(f)), matrix_(std::move(A)), scale_(std::move(scale)) {}

  void operator()(const Vector& x, Vector& dxdt, double) {
    ++evaluations;
    f_(x, dxdt);
  }
  void linearise() { ++linearisations; }
  DenseMatrix& thermal_matrix() { return matrix_; }
  const Vector& error_scale() const { return scale_; }
  long evaluations = 0, linearisations = 0;

 private:
  std::function<void(const Vector&, Vector&)> f_;
  DenseMatrix matrix_;
  Vector scale_;
};

/// Euler's equations of a spinning body without torque: smooth, nonlinear, two invariants.
void spinning_body(const Vector& x, Vector& dxdt) {
  dxdt(0) = -2.0 * x(1) * x(2);
  dxdt(1) = 1.25 * x(0) * x(2);
  dxdt(2) = -0.5 * x(0) * x(1);
}
Vector spin_at_rest() {
  Vector x(3);
  x << 1.0, 0.2, 0.9;
  return x;
}
Matrix wrong_matrix() {
  Matrix A(3, 3);
  A << -1.3, 0.4, 2.0, 0.7, -0.2, 0.1, -0.9, 1.1, -2.5;
  return A;
}
constexpr double accept_all = 1e9;

Vector fixed_steps(const Matrix& A, int count, double end) {
  TestSystem system(spinning_body, A, Vector::Ones(3));
  LinearlyImplicitStepper stepper(3, accept_all);
  Vector x = spin_at_rest();
  double t = 0.0;
  for (int k = 0; k < count; ++k) {
    double dt = end / count;
    EXPECT_EQ(stepper.try_step(std::ref(system), x, t, dt), odeint::success);
  }
  EXPECT_NEAR(t, end, 1e-12);
  return x;
}

/// The same motion by odeint's classical Runge-Kutta method in very short steps, to rounding.
Vector reference_spin(double end) {
  std::array<double, 3> x{1.0, 0.2, 0.9};
  const auto slope = [](const std::array<double, 3>& at, std::array<double, 3>& rate, double) {
    Vector wide(3);
    spinning_body(Eigen::Map<const Eigen::Vector3d>(at.data()), wide);
    std::copy(wide.begin(), wide.end(), rate.begin());
  };
  odeint::runge_kutta4<std::array<double, 3>> stepper;
  odeint::integrate_n_steps(std::ref(stepper), slope, x, 0.0, end / 4000.0, 4000);
  return Eigen::Map<const Eigen::Vector3d>(x.data());
}

TEST(LinearlyImplicitStepper, OneStepIsThePublishedFormsStep) {
  const auto f = [](const Vector& x) {
    Vector slope(3);
    spinning_body(x, slope);
    return slope;
  };
  for (const double h : {1e-3, 0.1, 1.0}) {
    TestSystem system(spinning_body, wrong_matrix(), Vector::Ones(3));
    LinearlyImplicitStepper stepper(3, accept_all);
    Vector x = spin_at_rest();
    double t = 0.0, dt = h;
    stepper.try_step(std::ref(system), x, t, dt);
    const Vector expected = published_step(f, wrong_matrix(), spin_at_rest(), h);
    EXPECT_NEAR((x - expected).norm(), 0.0, 1e-14) << h;
    EXPECT_EQ(t, h);
  }
}

// A W-method keeps its order whatever the matrix is: here one that has nothing to do with the system.
TEST(LinearlyImplicitStepper, IsOfOrderThreeWithAnArbitraryMatrix) {
  const double end = 2.0;
  const Vector reference = reference_spin(end);
  for (const Matrix& A :
       {Matrix(wrong_matrix()), Matrix(Matrix::Zero(3, 3)), Matrix(-3.0 * wrong_matrix())}) {
    double last = (fixed_steps(A, 50, end) - reference).norm();
    double next_order = 0.4;  // the error's next term shrinks with the step
    for (const int count : {100, 200, 400}) {
      const double error = (fixed_steps(A, count, end) - reference).norm();
      const double order = std::log2(last / error);
      EXPECT_NEAR(order, 3.0, next_order) << "at " << count << " steps, A =\n" << A;
      last = error;
      next_order /= 2.0;
    }
  }
}

TEST(LinearlyImplicitStepper, InterpolatesInsideAStepAsAccuratelyAsItSteps) {
  const auto error_of = [](double h) {
    TestSystem system(spinning_body, wrong_matrix(), Vector::Ones(3));
    LinearlyImplicitStepper stepper(3, accept_all);
    Vector x = spin_at_rest(), between(3);
    double t = 0.0, dt = h, worst = 0.0;
    stepper.try_step(std::ref(system), x, t, dt);
    stepper.interpolate(0.0, x, 0, between);
    EXPECT_EQ((between - spin_at_rest()).norm(), 0.0);
    stepper.interpolate(t, x, 0, between);
    EXPECT_NEAR((between - x).norm(), 0.0, 1e-15);
    for (const double share : {0.2, 0.5, 0.8}) {
      stepper.interpolate(share * h, x, 0, between);
      worst = std::max(worst, (between - reference_spin(share * h)).norm());
    }
    return worst;
  };
  // Local error of a third-order method falls with the fourth power of the step.
  EXPECT_NEAR(std::log2(error_of(0.1) / error_of(0.05)), 4.0, 0.3);
}

TEST(LinearlyImplicitStepper, InterpolatesStiffEntriesByAStraightLine) {
  TestSystem system(spinning_body, wrong_matrix(), Vector::Ones(3));
  LinearlyImplicitStepper stepper(3, accept_all);
  Vector x = spin_at_rest(), cubic(3), mixed(3);
  double t = 0.0, dt = 0.1;
  stepper.try_step(std::ref(system), x, t, dt);
  stepper.interpolate(0.03, x, 0, cubic);
  stepper.interpolate(0.03, x, 2, mixed);
  const Vector line = 0.7 * spin_at_rest() + 0.3 * x;
  EXPECT_NEAR((mixed - line).head(2).norm(), 0.0, 1e-15);
  EXPECT_EQ(mixed(2), cubic(2));
  EXPECT_GT((cubic - line).head(2).norm(), 1e-4);
}

TEST(LinearlyImplicitStepper, RetakesAShorterStepAsIfItHadTakenItAtOnce) {
  TestSystem system(spinning_body, wrong_matrix(), Vector::Ones(3));
  LinearlyImplicitStepper once(3, accept_all), twice(3, accept_all);
  Vector x = spin_at_rest(), y = spin_at_rest();
  double t = 0.0, s = 0.0, dt = 0.3;
  once.try_step(std::ref(system), x, t, dt);
  once.retake(std::ref(system), x, t, 0.1);
  dt = 0.1;
  twice.try_step(std::ref(system), y, s, dt);
  EXPECT_EQ((x - y).norm(), 0.0);
  EXPECT_EQ(t, s);
  EXPECT_EQ(once.steps(), 1);
  dt = 0.2;
  once.try_step(std::ref(system), x, t, dt);
  dt = 0.2;
  twice.try_step(std::ref(system), y, s, dt);
  EXPECT_EQ((x - y).norm(), 0.0) << "what follows a retaken step";
}

// The contract with Boost odeint: its own drivers drive the stepper.
static_assert(std::is_same_v<LinearlyImplicitStepper::stepper_category, odeint::controlled_stepper_tag>);

TEST(LinearlyImplicitStepper, IsDrivenByOdeintAsAControlledStepper) {
  const Vector reference = reference_spin(2.0);
  double last_error = 1.0;
  std::size_t last_steps = 0;
  for (const double tolerance : {1e-3, 1e-5, 1e-7}) {
    TestSystem system(spinning_body, wrong_matrix(), Vector::Ones(3));
    LinearlyImplicitStepper stepper(3, tolerance);
    Vector x = spin_at_rest();
    std::vector<double> times;
    const std::size_t steps =
        odeint::integrate_adaptive(std::ref(stepper), std::ref(system), x, 0.0, 2.0, 0.1,
                                   [&](const Vector&, double t) { times.push_back(t); });
    const double error = (x - reference).norm();
    EXPECT_LT(error,
              10.0 * tolerance);  // ten or more steps of error up to the tolerance, some of it cancelling
    EXPECT_LT(error, last_error / 20.0);
    EXPECT_GT(steps, last_steps);
    EXPECT_EQ(static_cast<long>(steps), stepper.steps());
    EXPECT_EQ(times.front(), 0.0);
    EXPECT_NEAR(times.back(), 2.0, 1e-12);
    last_error = error;
    last_steps = steps;
  }
}

TEST(LinearlyImplicitStepper, GivesOdeintsTimeRangeTheSameSteps) {
  TestSystem system(spinning_body, wrong_matrix(), Vector::Ones(3));
  LinearlyImplicitStepper one(3, 1e-5), two(3, 1e-5);
  Vector x = spin_at_rest(), y = spin_at_rest();
  odeint::integrate_adaptive(std::ref(one), std::ref(system), x, 0.0, 2.0, 0.1);
  double t = 0.0;
  const auto range = odeint::make_adaptive_time_range(std::ref(two), std::ref(system), y, 0.0, 2.0, 0.1);
  for (auto step = range.first; step != range.second; ++step) t = (*step).second;
  EXPECT_GT(t, 1.0);
  EXPECT_EQ((x - y).norm(), 0.0);
  EXPECT_EQ(one.steps(), two.steps());
}

/// x follows cos(t) within 1/rate seconds; the third and second entries turn the clock hand (cos t, sin t).
TestSystem stiff_follower(double rate, double share_of_matrix_known = 1.0) {
  Matrix A = Matrix::Zero(3, 3);
  A(0, 0) = -rate * share_of_matrix_known;
  A(0, 1) = rate * share_of_matrix_known;
  return TestSystem(
      [rate](const Vector& x, Vector& dxdt) {
        dxdt(0) = -rate * (x(0) - x(1));
        dxdt(1) = -x(2);
        dxdt(2) = x(1);
      },
      A, Vector::Ones(3));
}

TEST(LinearlyImplicitStepper, StepGrowsToTheSlowScaleAndShrinksAfterADisturbance) {
  const double rate = 1e5;  // the fast part settles in 10 microseconds, the slow one turns in 6 s
  TestSystem system = stiff_follower(rate);
  LinearlyImplicitStepper stepper(3, 1e-4);
  Vector x(3);
  x << 5.0, 1.0, 0.0;
  double t = 0.0, dt = 1e-7, longest = 0.0;
  const auto advance = [&](double end) {
    while (t < end) stepper.try_step(std::ref(system), x, t, dt);
  };
  advance(10.0);
  EXPECT_GT(dt, 1e4 / rate) << "ten thousand times the fast scale";
  EXPECT_GT(dt, 0.01);
  EXPECT_LT(stepper.steps(), 500);
  EXPECT_NEAR(x(0), std::cos(t), 1e-2);  // 1e-4 a step over a few hundred steps
  const double before = dt;
  longest = dt;

  x(0) += 3.0;  // something happens
  stepper.restart();
  const long refused = stepper.refused();
  const double disturbed = t;
  while (stepper.try_step(std::ref(system), x, t, dt) == odeint::fail) {
  }
  EXPECT_GT(stepper.refused(), refused + 1) << "the long step must not be accepted";
  EXPECT_LT(t - disturbed, before / 100.0);
  advance(disturbed + 5.0);
  EXPECT_GT(dt, 0.1 * longest) << "and it grows again";
  EXPECT_NEAR(x(0), std::cos(t), 1e-2);
}

TEST(LinearlyImplicitStepper, StaysStableWhenTheMatrixIsTenPercentOff) {
  TestSystem system = stiff_follower(1e3, 1.1);
  LinearlyImplicitStepper stepper(3, 1e-4);
  Vector x(3);
  x << 1.0, 1.0, 0.0;
  odeint::integrate_adaptive(std::ref(stepper), std::ref(system), x, 0.0, 20.0, 1e-3);
  EXPECT_NEAR(x(0), std::cos(20.0), 1e-2);
  EXPECT_LT(stepper.steps(), 2000) << "an explicit method needs 1e3*20/2.5 = 8,000";
}

TEST(LinearlyImplicitStepper, RefusedStepLeavesStateAndTimeAlone) {
  TestSystem system = stiff_follower(1e5);
  LinearlyImplicitStepper stepper(3, 1e-4);
  Vector x(3);
  x << 5.0, 1.0, 0.0;
  const Vector before = x;
  double t = 0.25, dt = 1.0;
  ASSERT_EQ(stepper.try_step(std::ref(system), x, t, dt), odeint::fail);
  EXPECT_EQ((x - before).norm(), 0.0);
  EXPECT_EQ(t, 0.25);
  EXPECT_LT(dt, 1.0);
  EXPECT_GE(dt, 0.1);
  EXPECT_EQ(stepper.steps(), 0);
  EXPECT_EQ(stepper.refused(), 1);
}

// After a leap the error of a step that is long beside what is quick hardly falls with its size: each refusal
// by the cube alone would halve the step a dozen times.
TEST(LinearlyImplicitStepper, FindsTheStepAfterALeapWithinAFewRefusals) {
  TestSystem system = stiff_follower(20.0);
  LinearlyImplicitStepper stepper(3, 1e-3);
  Vector x(3);
  x << 1.0, 1.0, 0.0;
  double t = 0.0, dt = 1e-3;
  while (t < 10.0) stepper.try_step(std::ref(system), x, t, dt);
  for (const double leap : {0.01, 0.03, 0.1, 0.3}) {
    x(0) += leap;
    stepper.restart();
    dt = 1.0;
    const long refused = stepper.refused();
    while (stepper.try_step(std::ref(system), x, t, dt) == odeint::fail) {
    }
    EXPECT_GT(stepper.refused(), refused + 1) << leap;
    EXPECT_LE(stepper.refused(), refused + 5) << leap;
    const double until = t + 5.0;
    while (t < until) stepper.try_step(std::ref(system), x, t, dt);
    EXPECT_NEAR(x(0), std::cos(t), 0.1) << leap;  // 1e-3 a step over a hundred steps at most
  }
}

/// Air that the bit warms (K, 1/s), which past a temperature mist cools twelve times as fast until all has
/// dried, with its own slope as the matrix.
class DryingMist {
 public:
  void operator()(const Vector& x, Vector& dxdt, double) {
    const double past = std::clamp(x(0) - dries_from, 0.0, has_dried);
    dxdt(0) = made - flow * x(0) - drying * past;
    slope_ = -flow - (past > 0.0 && past < has_dried ? drying : 0.0);
  }
  void linearise() { matrix_ = DenseMatrix(Matrix::Constant(1, 1, slope_)); }
  DenseMatrix& thermal_matrix() { return matrix_; }
  const Vector& error_scale() const { return scale_; }
  static constexpr double made = 180.0, flow = 100.0, drying = 1200.0, dries_from = 0.55, has_dried = 0.6;
  static constexpr double balance = (made + drying * dries_from) / (flow + drying);

 private:
  double slope_ = -flow;
  DenseMatrix matrix_{Matrix::Constant(1, 1, -flow)};
  Vector scale_ = Vector::Constant(1, 100.0);
};

// It went on in 55,000 steps of some 20 ms, at an error of 0.7 of the tolerance.
TEST(LinearlyImplicitStepper, IsNotHeldBeforeABendByStepsOfOneLength) {
  DryingMist system;
  LinearlyImplicitStepper stepper(1, 1e-2);
  Vector x = Vector::Zero(1);
  double t = 0.0, dt = 0.02;
  while (t < 1000.0) stepper.try_step(std::ref(system), x, t, dt);
  EXPECT_NEAR(x(0), DryingMist::balance, 1e-6);
  EXPECT_LT(stepper.steps(), 1000);
}

/// A body that cools towards 257 K, three times as fast as its matrix says, and can tell what is too cold to
/// be.
class CoolingBody : public TestSystem {
 public:
  CoolingBody()
      : TestSystem([](const Vector& x, Vector& dxdt) { dxdt = -200.0 * (x.array() - 257.0).matrix(); },
                   Matrix::Constant(1, 1, -60.0), Vector::Ones(1)) {}
  static bool cannot_be(const Vector& x) { return (x.array() < 200.0).any(); }
};

TEST(LinearlyImplicitStepper, NeverAcceptsWhatCannotBe) {
  const auto coldest = [](TestSystem& system, auto stepped) {
    LinearlyImplicitStepper stepper(1, accept_all);
    Vector x = Vector::Constant(1, 331.0);
    double t = 0.0, dt = 0.1, found = x(0);
    for (int k = 0; k < 50; ++k) {
      if (stepper.try_step(stepped(system), x, t, dt) == odeint::fail) continue;
      found = std::min(found, x(0));
      dt = 0.1;
    }
    EXPECT_GT(t, 0.0);
    return found;
  };
  CoolingBody body;
  ASSERT_LT(coldest(body, [](TestSystem& system) { return std::ref(system); }), 200.0)
      << "no error is told, and nobody asks";
  EXPECT_GE(coldest(body, [](TestSystem& system) { return std::ref(static_cast<CoolingBody&>(system)); }),
            200.0);
}

TEST(LinearlyImplicitStepper, NeverAcceptsWhatIsNotANumber) {
  // NaN in any entry: of the slope, or of the slope away from the start only.
  for (Eigen::Index entry = 0; entry < 3; ++entry) {
    for (const bool only_away : {false, true}) {
      TestSystem system(
          [&](const Vector& x, Vector& dxdt) {
            spinning_body(x, dxdt);
            if (!only_away || (x - spin_at_rest()).norm() > 0.0)
              dxdt(entry) = std::numeric_limits<double>::quiet_NaN();
          },
          wrong_matrix(), Vector::Constant(3, 1.0));
      LinearlyImplicitStepper stepper(3, accept_all);
      Vector x = spin_at_rest();
      EXPECT_THROW(odeint::integrate_adaptive(std::ref(stepper), std::ref(system), x, 0.0, 1.0, 0.1),
                   odeint::step_adjustment_error)
          << entry << only_away;
      EXPECT_EQ((x - spin_at_rest()).norm(), 0.0);
    }
  }
}

TEST(LinearlyImplicitStepper, AnEntryOfInfiniteScaleDoesNotSteerTheStep) {
  Vector scale = Vector::Ones(3);
  scale(0) = std::numeric_limits<double>::infinity();
  TestSystem free(spinning_body, wrong_matrix(), scale);
  LinearlyImplicitStepper stepper(3, 1e-5);
  Vector x = spin_at_rest();
  odeint::integrate_adaptive(std::ref(stepper), std::ref(free), x, 0.0, 2.0, 0.1);
  TestSystem bound(spinning_body, wrong_matrix(), Vector::Constant(3, 1e-2));
  LinearlyImplicitStepper careful(3, 1e-5);
  Vector y = spin_at_rest();
  odeint::integrate_adaptive(std::ref(careful), std::ref(bound), y, 0.0, 2.0, 0.1);
  EXPECT_LT(stepper.steps(), careful.steps());
}

}  // namespace
}  // namespace dullcast::simulation
