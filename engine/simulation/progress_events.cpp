// How far the bit has come: the interval's end, changes of settings, standstill, the string's own weight.
#include <algorithm>

#include "engine/simulation/drilling_events.hpp"

namespace dullcast::simulation {
namespace {

/// A depth is reached.
class DepthEvent : public EventFunction {
 public:
  DepthEvent(const RunInProgress& run, double depth) : depth_(depth), place_(run.layout().depth()) {}
  double value(const State& x, const DrillingSystem&) const override { return x(place_) - depth_; }
  bool is_an_end() const override { return true; }

 protected:
  double depth_;  // m
  Eigen::Index place_;
};

class IntervalEnds : public DepthEvent {
 public:
  using DepthEvent::DepthEvent;
  void act(RunInProgress& run) override {
    run.x(place_) = depth_;
    run.course.bottom_reached = true;
  }
};

/// The depth of the next change of settings is reached.
class SettingsChange : public EventFunction {
 public:
  explicit SettingsChange(const RunInProgress& run) : run_(run), place_(run.layout().depth()) {}
  double value(const State& x, const DrillingSystem&) const override {
    return std::max(x(place_) - run_.next_change(), std::numeric_limits<double>::lowest());
  }
  bool is_an_end() const override { return true; }
  void act(RunInProgress& run) override {
    run.x(place_) = run.next_change();
    change_settings(run);
  }

 private:
  const RunInProgress& run_;
  Eigen::Index place_;
};

/// From its depth on the string alone weighs more than the limit.
class StringTooHeavy : public DepthEvent {
 public:
  using DepthEvent::DepthEvent;
  void act(RunInProgress& run) override {
    run.course.heavy_string_told = true;
    tell(run, {EventKind::string_too_heavy});
  }
};

/// Drilling slower than the least progress asked for.
class Standstill : public EventFunction {
 public:
  explicit Standstill(double least_progress) : least_(least_progress) {}
  bool needs_forces() const override { return true; }
  double value(const State&, const DrillingSystem& system) const override {
    return least_ - system.evaluation().rate_of_penetration;
  }
  void act(RunInProgress& run) override {
    Event event{EventKind::stopped_drilling};
    event.value = run.probe(run.x).evaluation().weight_asked;
    tell(run, event);
    stop(run, EndedBy::stopped_drilling);
  }

 private:
  double least_;  // m/s
};

}  // namespace

EventFunctions events_of(const RunInProgress& run, const DrillingInterval& planned) {
  EventFunctions events;
  add_progress_events(run, planned, events);
  add_condition_events(run, events);
  add_breaking_events(run, events);
  add_water_events(run, events);
  add_string_event(run, planned, events);
  return events;
}

void add_progress_events(const RunInProgress& run, const DrillingInterval& planned, EventFunctions& events) {
  events.push_back(std::make_unique<IntervalEnds>(run, planned.bottom));
  if (run.schedule.next_depth() < planned.bottom) events.push_back(std::make_unique<SettingsChange>(run));
  if (run.schedule.as_planned() && run.clock.time >= run.course.standstill_from - same_time)
    events.push_back(std::make_unique<Standstill>(run.scenario.rules.least_progress));
}

void add_string_event(const RunInProgress& run, const DrillingInterval& planned, EventFunctions& events) {
  if (planned.settings.weight_on_bit || run.course.heavy_string_told) return;
  const double heavy = cutting::depth_where_string_weighs(run.models.ground.string, run.scenario.weight_limit,
                                                          planned.fluid.density);
  if (heavy < planned.bottom) events.push_back(std::make_unique<StringTooHeavy>(run, heavy));
}

}  // namespace dullcast::simulation
