#include <cstdio>
#include <exception>
#include <limits>

#include "tools/bench/benchmarks.hpp"
#include "tools/bench/cases.hpp"

namespace dullcast::bench {
namespace {

void write(const simulation::State& x) {
  std::fwrite(x.data(), sizeof(double), static_cast<std::size_t>(x.size()), stdout);
}

}  // namespace

// First entries, time, start, scale of errors and end; then a rate for every state.
void answer_right_hand_sides() {
  LayerProblem problem;
  const LayerEnd& end = layer_end();
  const simulation::StateLayout& layout = problem.system().layout();
  const double known[]{static_cast<double>(end.x.size()),
                       end.time,
                       static_cast<double>(layout.depth()),
                       static_cast<double>(layout.cutters),
                       static_cast<double>(layout.first(simulation::Block::worn)),
                       static_cast<double>(layout.first(simulation::Block::chip_hazard))};
  std::fwrite(known, sizeof(double), std::size(known), stdout);
  write(problem.start());
  write(problem.scale());
  write(end.x);
  std::fflush(stdout);
  simulation::State x = problem.start(), rate = x;
  const auto entries = static_cast<std::size_t>(x.size());
  while (std::fread(x.data(), sizeof(double), entries, stdin) == entries) {
    try {
      problem.slope(x, rate);
    } catch (const std::exception&) {
      rate.setConstant(std::numeric_limits<double>::quiet_NaN());  // for the solver to shorten its step
    }
    write(rate);
    std::fflush(stdout);
  }
}

}  // namespace dullcast::bench
