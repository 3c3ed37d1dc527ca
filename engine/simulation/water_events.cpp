// What water and cuttings do at the bottom: boiling, films of steam, packed slots, running dry.
#include <algorithm>

#include "engine/simulation/drilling_events.hpp"
#include "engine/simulation/event_policies.hpp"

namespace dullcast::simulation {
namespace {

class FluidBoils : public EventFunction {
 public:
  double value(const State& x, const DrillingSystem& system) const override { return system.near_boiling(x); }
  void act(RunInProgress& run) override { tell_first_in_hole(run, {EventKind::fluid_boils}); }
};

/// A film of steam comes over the first cutter, or leaves the last. It has left only where the hottest table
/// has also cooled: one that passes its dry-out slowly, as in a bed, is landed on a hair before it, and would
/// be told as wetted again at once.
class FilmChanges : public EventFunction {
 public:
  explicit FilmChanges(const RunInProgress& run)
      : filmed_(run.regime.filmed), hottest_(run.layout().table(run.x).maxCoeff()) {}
  bool needs_forces() const override { return true; }
  double value(const State& x, const DrillingSystem& system) const override {
    const double past = system.evaluation().heats.past_film, table = system.layout().table(x).maxCoeff();
    if (!filmed_)
      return past > thermal::far_from_film ? past
                                           : thermal::about_under_film(system.evaluation().cooling, table);
    // At 0 there still is one.
    if (!(past < 0.0)) return std::min(-past, -least);
    return std::min(-past, hottest_ - cooled - table);
  }
  void act(RunInProgress& run) override {
    run.regime.filmed = !filmed_;
    run.course.events_changed = true;
    // A film that ends because the water has boiled away is told as running dry.
    if (filmed_ && run.probe(run.x).evaluation().cooling.wetted_share < 0.5) return;
    Event event{filmed_ ? EventKind::surface_rewets : EventKind::film_forms};
    Eigen::Index hottest = 0;
    run.layout().table(run.x).maxCoeff(&hottest);
    event.cutter = static_cast<int>(hottest);
    tell_first_in_hole(run, event);
  }

 private:
  static constexpr double cooled = 1.0;  // K, a hundredth of the temperatures' error scale
  static constexpr double least = 1e-9;  // K
  bool filmed_;
  double hottest_;  // K
};

class SlotsChange : public EventFunction {
 public:
  explicit SlotsChange(const RunInProgress& run) : packed_(run.regime.packed) {}
  bool needs_forces() const override { return true; }
  double value(const State&, const DrillingSystem& system) const override {
    const double packing = system.evaluation().bottom.slot.packing;
    return packed_ ? policy::clear_from - packing : packing - policy::packed_from;
  }
  void act(RunInProgress& run) override {
    run.regime.packed = !packed_;
    run.course.events_changed = true;
    tell_first_in_hole(run, {packed_ ? EventKind::slots_clear : EventKind::slots_pack});
  }

 private:
  bool packed_;
};

class RunsDry : public EventFunction {
 public:
  explicit RunsDry(const RunInProgress& run) : place_(run.layout().water()) {}
  double value(const State& x, const DrillingSystem&) const override { return policy::dry_from - x(place_); }
  void act(RunInProgress& run) override {
    run.regime.dry = true;
    tell(run, {EventKind::runs_dry});
  }

 private:
  Eigen::Index place_;
};

}  // namespace

void add_water_events(const RunInProgress& run, EventFunctions& events) {
  if (!was_told(run, EventKind::fluid_boils)) events.push_back(std::make_unique<FluidBoils>());
  events.push_back(std::make_unique<FilmChanges>(run));
  events.push_back(std::make_unique<SlotsChange>(run));
  if (!run.regime.dry) events.push_back(std::make_unique<RunsDry>(run));
}

}  // namespace dullcast::simulation
