#include "engine/analysis/operating_window.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <mutex>

#include "engine/analysis/cooling_table.hpp"
#include "engine/analysis/layer_hole.hpp"
#include "engine/base/threads.hpp"
#include "engine/scenario/practice.hpp"
#include "models/common/domain.hpp"

namespace dullcast::analysis {
namespace {

constexpr double pound_force = 4.4482216152605;  // N, exact
constexpr double per_minute = 1.0 / 60.0;        // rev/s

/// Even steps of a round number (1, 2, 2.5 or 5 times a power of ten), the smallest of which `count` reach
/// `most`; those up to `most`, and two at least.
std::vector<double> round_steps(double most, int count) {
  const double least_step = most / count;
  const double decade = std::pow(10.0, std::floor(std::log10(least_step)));
  double step = 10.0 * decade;
  for (const double share : {5.0, 2.5, 2.0, 1.0}) {
    // A rounding error must not push a step that just reaches into the next one.
    if (share * decade >= least_step * (1.0 - 1e-12)) step = share * decade;
  }
  std::vector<double> steps;
  for (int k = 1; k <= 2 || k * step <= most * (1.0 + 1e-12); ++k) steps.push_back(k * step);
  return steps;
}

std::vector<double> times(std::vector<double> values, double unit) {
  for (double& value : values) value *= unit;
  return values;
}

void require_rising(const char* what, const std::vector<double>& values) {
  double before = 0.0;
  for (const double value : values) {
    require_domain(std::isfinite(value) && value > before, "operating_window", what, value);
    before = value;
  }
}

/// Tells trials done, one thread at a time.
class Count {
 public:
  Count(const WindowOptions& options, double all) : progress_(options.progress), all_(all) {}
  void one() {
    const std::lock_guard<std::mutex> lock(telling_);
    ++done_;
    if (progress_) progress_(done_, std::max(all_, static_cast<double>(done_)));
  }
  int done() const { return done_; }

 private:
  const std::function<void(double, double)>& progress_;
  double all_;
  int done_ = 0;
  std::mutex telling_;
};

/// One weight tried at a speed.
using Try = std::function<WindowCell(double weight)>;

/// Halves between a weight inside and one outside; returns the last cell seen outside, and moves `inside`.
WindowCell halve(double& inside, WindowCell outside, double closeness, const Try& at) {
  while (std::max(inside, outside.weight) > closeness * std::min(inside, outside.weight)) {
    const double middle = std::sqrt(inside * outside.weight);
    const WindowCell cell = at(middle);
    if (cell.inside())
      inside = middle;
    else
      outside = cell;
  }
  return outside;
}

/// One range of weights that is inside, and what was seen just outside it.
struct Span {
  double least = 0.0, greatest = 0.0;  // N
  std::optional<WindowCell> below, above;
};

/// A window narrower than the grid: where one limit binds at a weight and another at the next, halving the
/// weights between the two limits comes upon what lies between them.
std::optional<Span> between(WindowCell light, WindowCell heavy, double closeness, const Try& at) {
  const WindowLimit lighter = light.limit;
  while (lighter != heavy.limit && heavy.weight > closeness * light.weight) {
    const WindowCell cell = at(std::sqrt(light.weight * heavy.weight));
    if (cell.inside()) return Span{cell.weight, cell.weight, light, heavy};
    (cell.limit == lighter ? light : heavy) = cell;
  }
  return std::nullopt;
}

/// The lightest range of weights inside, as the grid has it; otherwise between two cells of it; otherwise
/// below it, where soft rock may ask for next to no weight.
std::optional<Span> find_span(const std::vector<WindowCell>& column, double closeness, const Try& at) {
  const auto inside = [](const WindowCell& cell) { return cell.inside(); };
  const auto first = std::find_if(column.begin(), column.end(), inside);
  if (first != column.end()) {
    const auto last = std::find_if_not(first, column.end(), inside);
    Span span{first->weight, (last - 1)->weight, {}, {}};
    if (first != column.begin()) span.below = *(first - 1);
    if (last != column.end()) span.above = *last;
    return span;
  }
  for (std::size_t k = 0; k + 1 < column.size(); ++k) {
    if (auto span = between(column[k], column[k + 1], closeness, at)) return span;
  }
  const WindowCell& lightest = column.front();
  if (lightest.too_light() || lightest.limit == WindowLimit::failed) return std::nullopt;
  constexpr double light_share = 1.0 / 32.0;  // of the lightest weight of the grid
  const WindowCell light = at(light_share * lightest.weight);
  if (light.inside()) return Span{light.weight, light.weight, {}, lightest};
  return between(light, lightest, closeness, at);
}

double most_used(const WindowCell& cell) {
  if (cell.limit == WindowLimit::failed) return std::numeric_limits<double>::infinity();
  return *std::max_element(cell.uses.begin(), cell.uses.end());
}

WindowEdge find_edge(const std::vector<WindowCell>& column, double weight_limit, double closeness,
                     const Try& at) {
  WindowEdge edge;
  edge.rotary_speed = column.front().rotary_speed;
  std::optional<Span> span = find_span(column, closeness, at);
  if (!span) {
    const WindowCell& nearest =
        *std::min_element(column.begin(), column.end(),
                          [](const auto& a, const auto& b) { return most_used(a) < most_used(b); });
    edge.above = nearest.limit;
    edge.weight_above = nearest.weight;
    return edge;
  }
  edge.least = span->least;
  edge.greatest = span->greatest;
  // The usual grid ends below the weight limit: whether anything binds before it is still to be seen.
  if (!span->above && std::isfinite(weight_limit) && weight_limit > span->greatest) {
    const WindowCell at_limit = at(weight_limit);
    if (!at_limit.inside()) span->above = at_limit;
  }
  if (span->above) {
    const WindowCell seen = halve(*edge.greatest, *span->above, closeness, at);
    edge.above = seen.limit;
    edge.weight_above = seen.weight;
  }
  if (span->below) {
    const WindowCell seen = halve(*edge.least, *span->below, closeness, at);
    edge.below = seen.limit;
    edge.weight_below = seen.weight;
  }
  return edge;
}

double planned_flow(const scenario::Scenario& scenario, const scenario::Layer& layer) {
  const double middle = 0.5 * (layer.top + layer.bottom);
  for (const scenario::OperatingInterval& interval : scenario.plan) {
    if (middle >= interval.from && middle < interval.to) return interval.flow;
  }
  return scenario.plan.back().flow;
}

}  // namespace

std::vector<double> weights_to_try(const scenario::Scenario& scenario) {
  double most = scenario.weight_limit;
  if (!(most > 0.0)) {
    for (const scenario::OperatingInterval& interval : scenario.plan)
      most = std::max(most, interval.weight_on_bit.value_or(interval.pull_down));
  }
  return times(round_steps(std::max(most, 1.0) / pound_force, 15), pound_force);
}

std::vector<double> speeds_to_try() {
  return times(round_steps(scenario::usual_most_speed / per_minute, 10), per_minute);
}

simulation::BitCondition window_condition(const scenario::Scenario& scenario, WindowBit bit) {
  simulation::BitCondition condition = starting_condition(scenario);
  const Eigen::Index n = scenario.bit.layout.count();
  if (bit == WindowBit::as_new) {
    condition = simulation::BitCondition{};
    condition.worn_height = condition.heat_damage = condition.chip_hazard = Eigen::ArrayXd::Zero(n);
    condition.lost = condition.table_gone = Eigen::ArrayXi::Zero(n);
  } else if (bit == WindowBit::half_worn) {
    condition.worn_height = condition.worn_height.max(0.5 * worn_to_allowance(scenario).worn_height);
  }
  return condition;
}

OperatingWindow operating_window(const scenario::Scenario& scenario, const WindowOptions& options) {
  const scenario::Layer& layer = scenario.column.layers.at(static_cast<std::size_t>(options.layer));
  OperatingWindow window;
  window.layer = options.layer;
  window.rock = layer.rock.name;
  window.top = layer.top;
  window.bottom = layer.bottom;
  window.flow = options.flow.value_or(planned_flow(scenario, layer));
  window.limits = options.limits.value_or(usual_window_limits(scenario));
  window.weights = options.weights.empty() ? weights_to_try(scenario) : options.weights;
  window.rotary_speeds = options.rotary_speeds.empty() ? speeds_to_try() : options.rotary_speeds;
  require_rising("weights are above 0, finite and rising", window.weights);
  require_rising("rotary speeds are above 0, finite and rising", window.rotary_speeds);
  require_domain(std::isfinite(window.flow) && window.flow >= 0.0, "operating_window",
                 "the flow is 0 or more and finite", window.flow);
  require_domain(std::isfinite(options.seconds) && options.seconds > 0.0, "operating_window",
                 "a trial lasts above 0 s and ends", options.seconds);
  require_domain(std::isfinite(options.closeness) && options.closeness > 1.0, "operating_window",
                 "the closeness is a ratio above 1", options.closeness);

  const simulation::BitCondition condition = window_condition(scenario, options.bit);
  const std::size_t weights = window.weights.size(), speeds = window.rotary_speeds.size();
  constexpr double trials_an_edge = 5.0;  // usual, for the progress told
  Count count(options,
              static_cast<double>(weights * speeds) + 1.0 + trials_an_edge * static_cast<double>(speeds));
  const auto tried = [&](double weight, double speed) {
    WindowCell cell = try_setting(scenario, options.layer, condition, window.limits,
                                  {weight, speed, window.flow, options.keep_feed_limit}, options.seconds);
    count.one();
    return cell;
  };
  const auto cells = static_cast<int>(weights * speeds);
  window.cells.resize(weights * speeds);
  // The planned setting is one more cell at the end.
  base::parallel_for(cells + 1, options.threads, [&](int k) {
    if (k == cells) {
      scenario::Scenario planned = scenario;
      for (scenario::OperatingInterval& interval : planned.plan) interval.flow = window.flow;
      window.planned = try_plan(planned, options.layer, condition, window.limits, options.seconds);
      count.one();
      return;
    }
    const auto at = static_cast<std::size_t>(k);
    window.cells[at] = tried(window.weights[at / speeds], window.rotary_speeds[at % speeds]);
  });
  window.edges.resize(speeds);
  base::parallel_for(static_cast<int>(speeds), options.threads, [&](int k) {
    const auto at = static_cast<std::size_t>(k);
    std::vector<WindowCell> column;
    for (std::size_t row = 0; row < weights; ++row) column.push_back(window.cell(row, at));
    window.edges[at] = find_edge(column, window.limits.weight, options.closeness,
                                 [&](double weight) { return tried(weight, window.rotary_speeds[at]); });
  });
  window.trials = count.done();
  return window;
}

}  // namespace dullcast::analysis
