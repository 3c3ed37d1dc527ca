// What breaks along the way of a run: edges, pockets, bonds, blades.
#include <algorithm>

#include "engine/simulation/drilling_events.hpp"

namespace dullcast::simulation {
namespace {

/// A pocket, a bond or a blade is loaded past its strength.
class SomethingLetsGo : public EventFunction {
 public:
  explicit SomethingLetsGo(const RunInProgress& run) : run_(run) {}
  bool needs_forces() const override { return true; }
  double value(const State& x, const DrillingSystem& system) const override {
    return run_.damage.weakest(system, x).used - 1.0;
  }
  void act(RunInProgress& run) override {
    const failure::WeakestLink link = run.damage.weakest(run.probe(run.x), run.x);
    run.course.events_changed = true;
    using Part = failure::WeakestLink::Part;
    if (link.part == Part::blade) return shear_blade(run, link.number);
    Event event{link.part == Part::pocket ? EventKind::cutter_lost : EventKind::table_lost};
    event.cutter = static_cast<int>(link.number);
    if (link.part == Part::pocket) {
      lose_cutter(run, link.number);
    } else {
      run.damage.mark_table_gone(link.number);
      if (!run.system.ruined(link.number)) ruin_table(run, link.number);
    }
    tell(run, event);
  }

 private:
  static void shear_blade(RunInProgress& run, Eigen::Index blade) {
    Event event{EventKind::blade_sheared};
    event.number = static_cast<int>(blade) + 1;
    tell(run, event);
    if (!run.outcome.beyond_repair) run.outcome.beyond_repair = milestone(run, "blade_sheared", {});
    stop(run, EndedBy::blade_sheared);
  }

  const RunInProgress& run_;
};

/// An edge has used up its allowance of chip hazard.
class EdgeChips : public EventFunction {
 public:
  EdgeChips(const RunInProgress& run, Eigen::Index cutter)
      : run_(run),
        place_(run.layout().first(Block::chip_hazard) + cutter),
        cutter_(cutter),
        most_(wear::greatest_worn_share * run.models.bit.bit.shape(cutter).radius) {}
  double value(const State& x, const DrillingSystem&) const override {
    // Where nothing is left nothing breaks off, how often that may ever be struck.
    if (!(run_.layout().worn(x)(cutter_) < nearly_all * most_)) return -1.0;
    return x(place_) - run_.damage.chips_at(cutter_);
  }
  /// A step is wrong by more of a hazard than this; nearer than the forces that stand on the way it cannot be
  /// located.
  double located_to() const override { return 1e-6; }
  void act(RunInProgress& run) override {
    const BitModels& bit = run.models.bit;
    Event event{EventKind::chip};
    event.cutter = static_cast<int>(cutter_);
    event.value = failure::chip_height(bit.edges.of(cutter_).chips, bit.bit.shape(cutter_),
                                       run.probe(run.x).evaluation().edge_cuts().depth(cutter_));
    // No more breaks off than there is.
    double& worn = run.layout().worn(run.x)(cutter_);
    event.value = std::clamp(most_ - worn, 0.0, event.value);
    worn += event.value;
    run.damage.count_chip(cutter_);
    tell(run, event);
    run.begin_afresh();
    run.course.events_changed = true;
  }

 private:
  static constexpr double nearly_all = 1.0 - 1e-9;
  const RunInProgress& run_;
  Eigen::Index place_, cutter_;
  double most_;  // m that can be worn away
};

}  // namespace

void add_breaking_events(const RunInProgress& run, EventFunctions& events) {
  events.push_back(std::make_unique<SomethingLetsGo>(run));
  if (!run.scenario.random_events.drawn) return;
  for (Eigen::Index i = 0; i < run.layout().cutters; ++i) {
    if (!run.system.lost(i)) events.push_back(std::make_unique<EdgeChips>(run, i));
  }
}

}  // namespace dullcast::simulation
