#include "tools/bench/cases.hpp"

#include <algorithm>
#include <cmath>
#include <functional>

#include "engine/input/scenario_reader.hpp"
#include "engine/simulation/linearly_implicit_stepper.hpp"
#include "engine/simulation/resting_state.hpp"
#include "engine/simulation/run.hpp"
#include "models/common/constants.hpp"

namespace dullcast::bench {

scenario::Scenario target(const std::vector<std::string>& sets) {
  const std::string root = DULLCAST_SOURCE_DIR;
  std::vector<input::Warning> warnings;
  return input::read_scenario(root + "/tools/bench/target.yaml", root + "/scenarios/library", sets, warnings);
}

const std::vector<Variant>& variants() {
  static const std::vector<Variant> list{
      {"plain", {}},
      {"rods", {"repeat.connection_every=20 ft", "repeat.connection_time=5 min"}},
      {"pump upset", {"upsets=[{from: 110 m, lasts: 60 s, flow: 10 gal/min}]"}},
      {"drawn chips", {"chance=drawn", "bit.lot=poor"}}};
  return list;
}

const Variant& with_rods() {
  return variants()[1];
}

scenario::Scenario hard_layer_alone() {
  scenario::Scenario s = target();
  s.column.layers = {s.column.layers[hard_layer]};
  s.plan = {s.plan[hard_layer]};
  s.bit.starting_wear.setConstant(worn_before);
  return s;
}

scenario::Scenario with_cutters(int cutters) {
  constexpr int usual = 18;  // of the target's bit
  scenario::Scenario s = target();
  geometry::CutterShape shape = s.bit.layout.shapes.front();
  shape.radius *= std::sqrt(static_cast<double>(usual) / cutters);
  shape.bevel_width = std::min(shape.bevel_width, 0.05 * shape.radius);
  geometry::BladePlan plan;
  plan.bit_diameter = 2.0 * s.bit.layout.bit_radius;
  const int blades = std::clamp(cutters / 5, 3, 8);
  plan.cutters_per_blade.resize(blades);
  for (int k = 0; k < blades; ++k) plan.cutters_per_blade(k) = cutters / blades + (k < cutters % blades);
  plan.wing_sweep = 20.0 * pi / 180.0;
  plan.cone_angle = 12.0 * pi / 180.0;
  plan.gauge_angle = 75.0 * pi / 180.0;
  plan.inner_back_rake = 15.0 * pi / 180.0;
  plan.outer_back_rake = 20.0 * pi / 180.0;
  s.bit.layout = geometry::lay_out_blades(plan, shape);
  const Eigen::Index count = s.bit.layout.count();
  s.bit.starting_wear.setZero(count);
  s.bit.starting_damage.setZero(count);
  s.bit.starting_chip_hazard.setZero(count);
  s.bit.starting_lost.setZero(count);
  s.bit.starting_table_gone.setZero(count);
  s.bit.starting_chipped.setZero(count);
  return s;
}

scenario::Scenario with_layers(int layers) {
  scenario::Scenario s = target();
  const std::vector<scenario::Layer> rocks = s.column.layers;
  constexpr std::size_t first = 2;  // limestone: where one layer is all there is it should be one that wears
  const double bottom = rocks.back().bottom, thickness = bottom / layers;
  s.column.layers.clear();
  for (int k = 0; k < layers; ++k) {
    scenario::Layer layer = rocks[(first + static_cast<std::size_t>(k)) % rocks.size()];
    layer.top = k * thickness;
    layer.bottom = k + 1 == layers ? bottom : (k + 1) * thickness;
    s.column.layers.push_back(layer);
  }
  s.plan = {s.plan.back()};
  s.plan.front().from = 0.0;
  return s;
}

scenario::Scenario with_holes(int holes) {
  constexpr double share = 1.0 / 40.0;
  scenario::Scenario s = target({"repeat.holes=" + std::to_string(holes)});
  for (double* value : {&s.numbers.abrasion_coefficient.low, &s.numbers.abrasion_coefficient.central,
                        &s.numbers.abrasion_coefficient.high})
    *value *= share;
  return s;
}

LayerProblem::LayerProblem()
    : scenario_(hard_layer_alone()),
      models_(simulation::assemble(scenario_)),
      system_(models_),
      start_(simulation::State::Zero(system_.layout().size())) {
  simulation::rest(models_, start_);
  start_(system_.layout().depth()) = models_.intervals.front().top;
  system_.layout().worn(start_) = worn_before;
  system_.enter(models_.intervals.front());
  constexpr double steers_nothing = 1e9;  // J, far above what is spent
  const simulation::State& scale = system_.error_scale();
  scale_ = scale.array().isFinite().select(scale.array(), steers_nothing);
}

const LayerEnd& layer_end() {
  static const LayerEnd end = [] {
    scenario::Scenario s = hard_layer_alone();
    s.stepping.relative_tolerance = 1e-5;
    s.stepping.warming = scenario::Warming::followed;
    const double until = simulation::run(s, {}, simulation::Rows::left_out).rotating_time;
    LayerProblem problem;
    LayerEnd found{until, problem.start(), problem.system().layout()};
    simulation::LinearlyImplicitStepper stepper(found.x.size(), 1e-8);
    double t = 0.0, dt = 1e-3;
    while (t < until) {
      dt = std::min(dt, until - t);
      if (!(dt > 1e-9)) break;
      stepper.try_step(std::ref(problem.system()), found.x, t, dt);
    }
    return found;
  }();
  return end;
}

LayerErrors errors_of(const simulation::State& x) {
  const simulation::State& exact = layer_end().x;
  const simulation::StateLayout& layout = layer_end().layout;
  static const double top = hard_layer_alone().column.layers.front().top;
  const double drilled = exact(layout.depth()) - top;
  const double worn = layout.worn(exact).maxCoeff() - worn_before;
  return {std::abs(x(layout.depth()) - exact(layout.depth())) / drilled,
          std::abs(layout.worn(x).maxCoeff() - layout.worn(exact).maxCoeff()) / worn,
          std::abs(layout.chip_hazard(x).sum() / layout.chip_hazard(exact).sum() - 1.0)};
}

}  // namespace dullcast::bench
