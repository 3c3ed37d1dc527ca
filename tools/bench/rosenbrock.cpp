#include "tools/bench/rosenbrock.hpp"

// Its checks of every index would be measured too.
#define BOOST_UBLAS_NDEBUG 1
#include <algorithm>
#include <boost/numeric/odeint/integrate/integrate_adaptive.hpp>
#include <boost/numeric/odeint/stepper/generation.hpp>
#include <boost/numeric/odeint/stepper/rosenbrock4.hpp>
#include <boost/numeric/ublas/matrix.hpp>
#include <boost/numeric/ublas/vector.hpp>
#include <cmath>

namespace dullcast::bench {

long solve_by_rosenbrock4(const std::function<void(const double* z, double* rate)>& slope, double tolerance,
                          double until, std::vector<double>& z) {
  namespace odeint = boost::numeric::odeint;
  using Vector = boost::numeric::ublas::vector<double>;
  using Matrix = boost::numeric::ublas::matrix<double>;
  const auto slope_at = [&](const Vector& at, Vector& rate, double) { slope(&at[0], &rate[0]); };
  Vector moved(z.size()), here(z.size()), there(z.size());
  const auto jacobian = [&](const Vector& at, Matrix& slopes, double, Vector& by_time) {
    constexpr double step = 1e-7;
    moved = at;
    slope(&at[0], &here[0]);
    for (std::size_t j = 0; j < at.size(); ++j) {
      const double by = step * std::max(1.0, std::abs(at[j]));
      moved[j] = at[j] + by;
      slope(&moved[0], &there[0]);
      moved[j] = at[j];
      for (std::size_t i = 0; i < at.size(); ++i) slopes(i, j) = (there[i] - here[i]) / by;
    }
    std::fill(by_time.begin(), by_time.end(), 0.0);
  };
  constexpr double first_step = 1e-3;  // s
  Vector state(z.size());
  std::copy(z.begin(), z.end(), state.begin());
  const std::size_t steps =
      odeint::integrate_adaptive(odeint::make_dense_output<odeint::rosenbrock4<double>>(tolerance, 0.0),
                                 std::make_pair(slope_at, jacobian), state, 0.0, until, first_step);
  std::copy(state.begin(), state.end(), z.begin());
  return static_cast<long>(steps);
}

}  // namespace dullcast::bench
