#include "engine/simulation/cooling_off.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "models/common/constants.hpp"

namespace dullcast::simulation {
namespace {

constexpr double first_share = 0.1;  // of all the time: the first step
constexpr double greatest_growth = 10.0;
constexpr double least_step = 1e-3;  // s
constexpr int most_steps = 200;

}  // namespace

std::vector<double> CoolingOff::series(int degree, double pole) {
  const int n = degree + 1;
  const auto g = [pole](double u) {
    const double y = pole * (1.0 / u - 1.0);
    return -std::expm1(-y) * (1.0 + pole / y);
  };
  std::vector<double> coefficients(static_cast<std::size_t>(n), 0.0);
  for (int j = 0; j < n; ++j) {
    const double angle = (j + 0.5) * pi / n, value = g(0.5 * (1.0 + std::cos(angle)));
    for (int k = 0; k < n; ++k)
      coefficients[static_cast<std::size_t>(k)] += (k == 0 ? 1.0 : 2.0) / n * value * std::cos(k * angle);
  }
  return coefficients;
}

int CoolingOff::degree_for(double tolerance) {
  constexpr int least = 6, most = 26;
  return std::clamp(static_cast<int>(std::ceil(2.0 - 3.0 * std::log10(tolerance))), least, most);
}

CoolingOff::CoolingOff(DrillingSystem& lifted, double tolerance)
    : lifted_(&lifted),
      tolerance_(tolerance),
      pole_(pole_for(degree_for(tolerance))),
      series_(series(degree_for(tolerance), pole_)),
      fast_(lifted.layout().slow_from()) {
  for (State* v : {&slope_, &end_, &end_slope_, &last_, &before_last_, &sum_, &work_})
    v->setZero(lifted.layout().size());
}

/// Whether what would be told on the way might happen at x, evaluated last.
bool CoolingOff::has_to_be_followed(const State& x) const {
  const Evaluation& now = lifted_->evaluation();
  return lifted_->falls() || (now.heats.film > 0.0).any() || lifted_->near_boiling(x) >= 0.0;
}

/// From slope_, the rates at the step's start: what it moves into work_, and into sum_ what rates are at its
/// end as far as the network is linear.
void CoolingOff::step(double h) {
  ThermalMatrix& matrix = lifted_->thermal_matrix();
  const double shift = pole_ / h;
  matrix.factorise(shift);
  const auto fast = [this](State& v) { return v.head(fast_); };
  // (2 U - I) v, of the fast entries; the others stay 0.
  const auto turn = [&](State& v, State& into) {
    into = v;
    matrix.solve(into);
    fast(into) = 2.0 * shift * fast(into) - fast(v);
  };
  fast(before_last_) = fast(slope_);
  turn(before_last_, last_);
  fast(sum_) = series_[0] * fast(before_last_) + series_[1] * fast(last_);
  for (std::size_t k = 2; k < series_.size(); ++k) {
    turn(last_, work_);
    fast(work_) = 2.0 * fast(work_) - fast(before_last_);
    std::swap(before_last_, last_);
    std::swap(last_, work_);
    fast(sum_) += series_[k] * fast(last_);
  }
  work_ = sum_;
  matrix.solve(work_);
  fast(sum_) = fast(slope_) - (fast(sum_) - shift * fast(work_));
}

/// How wrong a step is, over the tolerance, which ends where rates are end_slope_ and not sum_.
double CoolingOff::wrong(double h) {
  ThermalMatrix& matrix = lifted_->thermal_matrix();
  work_.head(fast_) = 0.5 * (end_slope_.head(fast_) - sum_.head(fast_));
  matrix.factorise(1.0 / h);
  matrix.solve(work_);
  return (work_.head(fast_).array().abs() / lifted_->error_scale().head(fast_).array()).maxCoeff() /
         tolerance_;
}

bool CoolingOff::cool(State& x, double seconds) {
  double t = 0.0, h = first_share * seconds;
  for (State* v : {&slope_, &last_, &before_last_, &sum_, &work_}) v->tail(x.size() - fast_).setZero();
  lifted_->find_fast_rates(x, slope_);
  slope_.tail(x.size() - fast_).setZero();
  end_ = x;
  for (int steps = 0; steps < most_steps; ++steps) {
    if (has_to_be_followed(x)) return false;
    if (t >= seconds) return true;
    lifted_->linearise();
    for (;;) {
      step(h);
      end_.head(fast_) = x.head(fast_) + work_.head(fast_);
      if (!end_.allFinite()) return false;
      lifted_->find_fast_rates(end_, end_slope_);
      const double error = wrong(h);
      const double growth = 0.9 / std::sqrt(std::max(error, 1e-9));
      if (error <= 1.0) {
        t = h < seconds - t ? t + h : seconds;
        h = std::min(h * std::clamp(growth, 0.2, greatest_growth), seconds - t);
        break;
      }
      h *= std::max(0.1, growth);
      if (!(h > least_step)) return false;
    }
    x.head(fast_) = end_.head(fast_);
    slope_.head(fast_) = end_slope_.head(fast_);
  }
  return false;
}

}  // namespace dullcast::simulation
