#include "engine/run/run.hpp"

#include <algorithm>
#include <boost/math/tools/toms748_solve.hpp>
#include <boost/numeric/odeint/iterator/adaptive_time_iterator.hpp>
#include <cmath>
#include <cstdint>
#include <functional>
#include <stdexcept>
#include <string>
#include <utility>

#include "engine/run/assembly.hpp"
#include "engine/run/linearly_implicit_stepper.hpp"
#include "engine/run/recorder.hpp"
#include "engine/run/rules.hpp"
#include "engine/run/watch.hpp"
#include "models/letters.hpp"

namespace dullcast {
namespace {

namespace odeint = boost::numeric::odeint;

constexpr double first_step =
    0.1;  // s: about the fastest that the network resolves; error control may go lower
constexpr double forever = 1e12;             // s
constexpr double least_row_distance = 1e-6;  // m, of a history row from the end of its stretch

/// One run under way: state, clocks, and what watches them.
class Drive {
 public:
  Drive(const Scenario& scenario, const Progress& progress)
      : scenario_(scenario),
        progress_(progress),
        models_(assemble(scenario)),
        system_(models_),
        probe_(models_),
        stepper_(system_.layout().size(), scenario.stepping.relative_tolerance),
        judge_(scenario.rules, models_),
        recorder_(models_, scenario, outcome_),
        x_(State::Zero(system_.layout().size())),
        probe_slope_(x_) {
    clock_.connection_every = scenario.repeat.connection_every;
    clock_.connection_time = scenario.repeat.connection_time;
    layout().worn(x_) = scenario.bit.starting_wear;
    layout().damage(x_) = scenario.bit.starting_damage;
    for (Eigen::Index i = 0; i < layout().cutters; ++i) {
      if (layout().damage(x_)(i) >= 1.0) ruin(i);
    }
  }

  RunOutcome drill_all() {
    for (int hole = 0; hole < scenario_.repeat.holes && !stopped_; ++hole) drill_hole(hole);
    if (!stopped_) outcome_.ended_by = EndedBy::last_hole;
    outcome_.footage = clock_.footage_before;
    outcome_.rotating_time = clock_.rotating_time;
    outcome_.elapsed_time = clock_.rotating_time + clock_.idle_time;
    outcome_.energy = clock_.energy_before;
    outcome_.end = judge_.condition(x_);
    if (!outcome_.rework_due) outcome_.rules = judge_.uses(x_);
    outcome_.steps = stepper_.steps();
    outcome_.refused_steps = stepper_.refused();
    outcome_.right_hand_sides = system_.evaluations();
    return std::move(outcome_);
  }

 private:
  const StateLayout& layout() const { return system_.layout(); }
  double depth() const { return x_(layout().depth()); }

  /// The system at x, for events that need forces at a trial state: a second object, so that looking ahead
  /// leaves the stepped system alone, and not the recorder's, so that what is recorded does not matter here.
  const DrillingSystem& probe(const State& x) {
    probe_(x, probe_slope_, 0.0);
    return probe_;
  }

  void ruin(Eigen::Index cutter) {
    system_.set_ruined(cutter);
    probe_.set_ruined(cutter);
    recorder_.set_ruined(cutter);
    stepper_.restart();
  }

  void cool_down() {
    const double T = models_.ground.inlet_temperature;
    layout().table(x_) = T;
    layout().carbide(x_) = T;
    layout().settled(x_) = T;
    x_(layout().body()) = T;
    x_(layout().fluid()) = T;
    for (const Eigen::Index sum : {layout().spent(), layout().carried(), layout().left_in_rock()})
      x_(sum) = 0.0;
  }

  void drill_hole(int hole) {
    clock_.hole = hole;
    clock_.hole_start_rotating = clock_.rotating_time;
    cool_down();
    x_(layout().depth()) = models_.stretches.front().top;
    const double top = depth();
    judge_.begin_hole();
    system_.enter(models_.stretches.front());
    const double T_zero = models_.ground.inlet_temperature;
    const double heat_before = system_.stored_heat(x_, T_zero);
    for (const Stretch& stretch : models_.stretches) {
      try {
        drill_stretch(stretch);
      } catch (const std::exception& error) {
        throw std::runtime_error("hole " + std::to_string(hole + 1) + ", depth " + std::to_string(depth()) +
                                 " m: " + error.what());
      }
      if (stopped_) break;
      if (progress_) {
        progress_(hole + (depth() - top) / (models_.stretches.back().bottom - top), scenario_.repeat.holes);
      }
    }
    if (!stopped_ && !outcome_.rework_due && judge_.worst(x_, true).used >= 1.0) rework_falls_due(true);
    outcome_.energy_residual += x_(layout().spent()) - x_(layout().carried()) - x_(layout().left_in_rock()) -
                                (system_.stored_heat(x_, T_zero) - heat_before);
    recorder_.finish_hole(x_, clock_, judge_.condition(x_));
    if (!stopped_ || depth() >= models_.stretches.back().bottom) {
      ++outcome_.holes_finished;
      recorder_.add_event(EventKind::hole_finished, x_, clock_, -1, "Hole finished; the bit is tripped out.");
    }
    clock_.idle_time += clock_.connections(depth()) * clock_.connection_time + scenario_.repeat.trip_time;
    clock_.footage_before += depth() - top;
    clock_.energy_before += x_(layout().spent());
  }

  void drill_stretch(const Stretch& stretch) {
    system_.enter(stretch);
    probe_.enter(stretch);
    stepper_.restart();
    x_(layout().depth()) = stretch.top;
    recorder_.enter(stretch, x_, clock_);
    announce_layer(stretch);
    next_row_ = stretch.top + row_spacing();
    arm(stretch);
    judge_.enter(probe(x_), clock_.rotating_time);
    bottom_reached_ = false;
    double dt = first_step;
    while (!bottom_reached_ && !stopped_) {
      if (act_on_what_is_already_due()) continue;
      auto step = odeint::make_adaptive_time_range(std::ref(stepper_), std::ref(system_), x_,
                                                   clock_.rotating_time, clock_.rotating_time + forever, dt)
                      .first;
      int event = -1;
      while (event < 0) {
        ++step;
        double t = (*step).second;
        event = locate_first(
            watches_, stepper_, system_, [this](const State& x) -> const DrillingSystem& { return probe(x); },
            x_, t);
        record_rows(t, stretch.bottom);
        clock_.rotating_time = t;
        recorder_.note(x_, system_, clock_);
        judge_.note(system_, clock_.rotating_time);
      }
      dt = stepper_.next_step();
      act_on(event);
    }
    recorder_.leave(x_, clock_);
  }

  double row_spacing() const {
    return scenario_.stepping.output_every > 0.0 ? scenario_.stepping.output_every : forever;
  }

  /// History rows at even depths inside the last step. One that falls on the stretch's end is left to the
  /// row that is made there anyway.
  void record_rows(double t, double stretch_bottom) {
    State between = x_;
    while (next_row_ < depth() && next_row_ < stretch_bottom - least_row_distance) {
      const auto above = [&](double when) {
        stepper_.interpolate(when, x_, layout().slow_from(), between);
        return between(layout().depth()) - next_row_;
      };
      RunClock then = clock_;
      then.rotating_time = t;
      const double start = stepper_.last_start_time();
      const double above_at_start = above(start), above_at_end = above(t);
      // The ends may miss the row's depth by a last bit, and then they are it.
      if (above_at_start >= 0.0) {
        then.rotating_time = start;
      } else if (above_at_end > 0.0) {
        std::uintmax_t most_evaluations = 60;
        then.rotating_time =
            boost::math::tools::toms748_solve(
                above, start, t, above_at_start, above_at_end,
                [&](double low, double high) { return high - low <= 1e-9 * (t - start); }, most_evaluations)
                .second;
      }
      above(then.rotating_time);
      recorder_.add_row(between, then);
      next_row_ += row_spacing();
    }
  }

  void act_on(int event) {
    Watch& watch = watches_[static_cast<std::size_t>(event)];
    watch.armed = false;
    watch.act();
  }

  bool act_on_what_is_already_due() {
    const DrillingSystem& now = probe(x_);
    for (std::size_t k = 0; k < watches_.size(); ++k) {
      if (watches_[k].armed && watches_[k].value(x_, now) >= 0.0) {
        act_on(static_cast<int>(k));
        return true;
      }
    }
    return false;
  }

  void arm(const Stretch& stretch) {
    watches_.clear();
    const Eigen::Index z = layout().depth();
    watches_.push_back(
        {[z, bottom = stretch.bottom](const State& x, const DrillingSystem&) { return x(z) - bottom; },
         [this, bottom = stretch.bottom] {
           x_(layout().depth()) = bottom;
           bottom_reached_ = true;
         },
         false, 1e-9});
    watches_.push_back({[least = scenario_.rules.least_progress](const State&, const DrillingSystem& system) {
                          return least - system.instant().rate_of_penetration;
                        },
                        [this] { stop_drilling(); }, true});
    if (!outcome_.rework_due) {
      watches_.push_back(
          {[this](const State& x, const DrillingSystem&) { return judge_.worst(x, false).used - 1.0; },
           [this] { rework_falls_due(false); }});
    }
    if (!outcome_.beyond_repair) {
      watches_.push_back(
          {[this](const State& x, const DrillingSystem&) { return judge_.beyond_repair_use(x) - 1.0; },
           [this] { passes_repair(); }});
    }
    for (Eigen::Index i = 0; i < layout().cutters; ++i) {
      if (system_.ruined(i)) continue;
      watches_.push_back(
          {[this, i](const State& x, const DrillingSystem&) { return layout().damage(x)(i) - 1.0; },
           [this, i] { table_is_ruined(i); }});
    }
    watches_.push_back({[](const State&, const DrillingSystem& system) {
                          return system.instant().balance.blade_weight > 0.0 ? 1.0 : -1.0;
                        },
                        [this] { blade_starts_to_rub(); }, true});
    watches_.push_back({[](const State& x, const DrillingSystem& system) { return system.near_boiling(x); },
                        [this] { fluid_boils(); }});
    arm_heavy_string(stretch);
  }

  Milestone milestone(const std::string& rule) const {
    Milestone m;
    m.hole = clock_.hole;
    m.depth = depth();
    m.footage = clock_.footage_before + depth() - models_.stretches.front().top;
    m.rotating_time = clock_.rotating_time;
    m.elapsed_time = clock_.elapsed_time(depth());
    m.energy = clock_.energy_before + x_(layout().spent());
    m.rule = rule;
    m.cutters = judge_.cutters_of(rule, x_);
    m.condition = judge_.condition(x_);
    return m;
  }

  /// `hole_done`: the whole hole is drilled, so that its speed can be judged.
  void rework_falls_due(bool hole_done) {
    const std::string rule = judge_.worst(x_, hole_done).rule;
    outcome_.rules = judge_.uses(x_);
    outcome_.rework_due = milestone(rule);
    recorder_.add_event(EventKind::rework_due, x_, clock_, first_cutter(*outcome_.rework_due),
                        "Rework is due by the rule " + rule + ".");
    if (scenario_.repeat.stop_at == StopAt::rework_due) stop(EndedBy::rework_due);
  }

  void passes_repair() {
    outcome_.beyond_repair = milestone("beyond_repair");
    recorder_.add_event(EventKind::beyond_repair, x_, clock_, first_cutter(*outcome_.beyond_repair),
                        "Worn past what a usual rework puts right: pockets and blades start to go.");
    if (scenario_.repeat.stop_at == StopAt::beyond_repair) stop(EndedBy::beyond_repair);
  }

  void table_is_ruined(Eigen::Index i) {
    ruin(i);
    recorder_.add_event(EventKind::table_ruined, x_, clock_, static_cast<int>(i),
                        "Heat has ruined the diamond table; from here it wears like carbide.");
  }

  void blade_starts_to_rub() {
    if (rubbing_told_in_hole_ == clock_.hole) return;
    rubbing_told_in_hole_ = clock_.hole;
    const DrillingSystem& now = probe(x_);
    recorder_.add_event(EventKind::blade_rubs, x_, clock_, -1,
                        "A blade carries weight at radius " +
                            std::to_string(std::lround(1e3 * now.instant().rubbing.contact_radius)) + " mm.");
  }

  void fluid_boils() {
    if (boiling_told_in_hole_ == clock_.hole) return;
    boiling_told_in_hole_ = clock_.hole;
    recorder_.add_event(
        EventKind::fluid_boils, x_, clock_, -1,
        "Water at the bit boils. The model does not boil it away: from here cutters may run far hotter.");
  }

  void stop_drilling() {
    const bool no_weight = !(probe(x_).instant().weight_asked > 0.0);
    recorder_.add_event(EventKind::stopped_drilling, x_, clock_, -1,
                        no_weight ? "No weight is on the bit: the holdback carries pull-down and string."
                                  : "The bit no longer drills at the least progress asked for.");
    stop(EndedBy::stopped_drilling);
  }

  static int first_cutter(const Milestone& m) { return m.cutters.empty() ? -1 : m.cutters.front(); }

  void stop(EndedBy why) {
    outcome_.ended_by = why;
    stopped_ = true;
  }

  void announce_layer(const Stretch& stretch) {
    // A change of settings within one layer is no new layer.
    if (&stretch != &models_.stretches.front() && (&stretch - 1)->layer == stretch.layer) return;
    const std::string& rock = scenario_.column.layers[static_cast<std::size_t>(stretch.layer)].rock.name;
    recorder_.add_event(EventKind::layer_entered, x_, clock_, -1, "Enters " + rock + ".");
  }

  /// Watches in the first hole for the depth from which the string alone weighs more than the limit.
  void arm_heavy_string(const Stretch& stretch) {
    if (stretch.weight_stated || heavy_string_told_) return;
    const double heavy = depth_where_string_weighs(models_.ground.string, scenario_.weight_limit,
                                                   stretch.string_fluid_density);
    if (!(heavy < stretch.bottom)) return;
    const Eigen::Index z = layout().depth();
    watches_.push_back({[z, heavy](const State& x, const DrillingSystem&) { return x(z) - heavy; },
                        [this] {
                          heavy_string_told_ = true;
                          recorder_.add_event(EventKind::string_too_heavy, x_, clock_, -1,
                                              "From here down the string alone weighs more than the weight "
                                              "limit: hold back.");
                        }});
  }

  const Scenario& scenario_;
  const Progress& progress_;
  RunModels models_;
  DrillingSystem system_, probe_;
  LinearlyImplicitStepper stepper_;
  ReworkJudge judge_;
  RunOutcome outcome_;
  Recorder recorder_;
  State x_, probe_slope_;
  RunClock clock_;
  std::vector<Watch> watches_;
  double next_row_ = 0.0;
  bool bottom_reached_ = false, stopped_ = false, heavy_string_told_ = false;
  int rubbing_told_in_hole_ = -1, boiling_told_in_hole_ = -1;
};

}  // namespace

RunOutcome run(const Scenario& scenario, const Progress& progress) {
  Drive drive(scenario, progress);
  return drive.drill_all();
}

}  // namespace dullcast
