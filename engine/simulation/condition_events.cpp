// What becomes of the bit as it wears: rework due, past repair, ruined tables, blades that rub.
#include "engine/simulation/drilling_events.hpp"

namespace dullcast::simulation {
namespace {

class ReworkDue : public EventFunction {
 public:
  explicit ReworkDue(const RunInProgress& run) : run_(run) {}
  double value(const State& x, const DrillingSystem&) const override {
    return run_.judge.worst(x, run_.damage.marks(), false).used - 1.0;
  }
  void act(RunInProgress& run) override { rework_falls_due(run, false); }

 private:
  const RunInProgress& run_;
};

class BeyondRepair : public EventFunction {
 public:
  explicit BeyondRepair(const RunInProgress& run) : run_(run) {}
  double value(const State& x, const DrillingSystem&) const override {
    return run_.judge.beyond_repair().used(run_.judge.at(x, run_.damage.marks())) - 1.0;
  }
  void act(RunInProgress& run) override {
    run.outcome.beyond_repair = milestone(run, run.judge.beyond_repair());
    Event event{EventKind::beyond_repair};
    const std::vector<int>& cutters = run.outcome.beyond_repair->cutters;
    event.cutter = cutters.empty() ? -1 : cutters.front();
    tell(run, event);
    if (run.scenario.repeat.stop_at == scenario::StopAt::beyond_repair) stop(run, EndedBy::beyond_repair);
  }

 private:
  const RunInProgress& run_;
};

/// A cutter's heat damage reaches 1.
class TableRuined : public EventFunction {
 public:
  TableRuined(const RunInProgress& run, Eigen::Index cutter)
      : place_(run.layout().first(Block::damage) + cutter), cutter_(cutter) {}
  double value(const State& x, const DrillingSystem&) const override { return x(place_) - 1.0; }
  void act(RunInProgress& run) override {
    ruin_table(run, cutter_);
    Event event{EventKind::table_ruined};
    event.cutter = static_cast<int>(cutter_);
    tell(run, event);
  }

 private:
  Eigen::Index place_, cutter_;
};

class BladeRubs : public EventFunction {
 public:
  bool needs_forces() const override { return true; }
  double value(const State&, const DrillingSystem& system) const override {
    return system.evaluation().forces.balance.blade_weight > 0.0 ? 1.0 : -1.0;
  }
  void act(RunInProgress& run) override {
    Event event{EventKind::blade_rubs};
    event.value = run.probe(run.x).evaluation().forces.rubbing.contact_radius;
    tell_first_in_hole(run, event);
  }
};

}  // namespace

void add_condition_events(const RunInProgress& run, EventFunctions& events) {
  if (!run.outcome.rework_due) events.push_back(std::make_unique<ReworkDue>(run));
  if (!run.outcome.beyond_repair) events.push_back(std::make_unique<BeyondRepair>(run));
  for (Eigen::Index i = 0; i < run.layout().cutters; ++i) {
    if (!run.system.ruined(i) && !run.system.lost(i)) events.push_back(std::make_unique<TableRuined>(run, i));
  }
  if (!was_told(run, EventKind::blade_rubs)) events.push_back(std::make_unique<BladeRubs>());
}

}  // namespace dullcast::simulation
