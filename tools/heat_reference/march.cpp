#include "tools/heat_reference/march.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "models/common/domain.hpp"

namespace dullcast::heat_reference {

void march(const Matrix& mass, const std::vector<MarchStage>& stages, Vector field,
           const std::vector<double>& times, int steps_per_doubling,
           const std::function<void(double, const Vector&)>& observe) {
  require_domain(steps_per_doubling >= 1, "march", "at least one step per doubling is needed",
                 steps_per_doubling);
  constexpr double whole = 1.0 - 1e-12;
  const double diagonal = 1.0 - std::sqrt(0.5);
  double began = 0.0;
  auto due = times.begin();
  while (due != times.end() && *due <= 0.0) observe(*due++, field);
  for (const MarchStage& stage : stages) {
    const double ends = began + stage.duration;
    const auto is_here = [&] { return due != times.end() && *due * whole <= ends; };
    double t = 0.0;  // since the stage began
    double step = std::max(is_here() ? *due - began : stage.duration, 1e-3) / 64.0;
    std::map<double, Solver> solvers;
    Vector guess = Vector::Zero(field.size());
    while (t < stage.duration * whole) {
      while (2.0 * step <= t / steps_per_doubling) step *= 2.0;
      double taken = std::min(step, stage.duration - t);
      const bool look = is_here() && *due - began <= t + taken * (1.0 + 1e-9);
      if (look) taken = *due - began - t;
      if (taken > 0.0) {
        auto found = solvers.find(taken);
        if (found == solvers.end()) {
          // Odd steps to an observation come once; a few matrices at a time are enough.
          if (solvers.size() > 6) solvers.clear();
          found = solvers.emplace(taken, Solver(mass + diagonal * taken * stage.exchange)).first;
        }
        const Vector first = found->second.solve(stage.load - stage.exchange * field, guess);
        const Vector before_second = field + (1.0 - diagonal) * taken * first;
        const Vector second = found->second.solve(stage.load - stage.exchange * before_second, first);
        field += taken * ((1.0 - diagonal) * first + diagonal * second);
        guess = second;
        t += taken;
      }
      if (look) observe(*due++, field);
    }
    began = ends;
  }
}

}  // namespace dullcast::heat_reference
