// What happens to a run when settings or rock change under the bit.
#include <algorithm>

#include "engine/simulation/event_policies.hpp"
#include "engine/simulation/run_in_progress.hpp"

namespace dullcast::simulation {
namespace {

/// Cold flow that comes back meets what has grown hot meanwhile.
void quench(RunInProgress& run, const DrillingInterval& before, const DrillingInterval& after) {
  if (!(after.flow_at_bit > policy::quenching_flow * before.flow_at_bit)) return;
  const StateLayout& layout = run.layout();
  // Slots that packed meanwhile are flushed in a fraction of a second, before the diamond has cooled much.
  State clear = run.x;
  clear(layout.solids()) = clear(layout.plug()) = 0.0;
  const DrillingSystem& now = run.probe(clear);
  const double inlet = run.models.ground.inlet_temperature;
  const Eigen::ArrayXd table = layout.table(run.x);
  failure::add_quench_hazards(run.models.bit.edges,
                              {layout.worn(run.x), table, layout.damage(run.x), run.system.lost()}, inlet,
                              now.evaluation().cooling.convection, layout.chip_hazard(run.x));
  Event event{EventKind::quench};
  Eigen::Index hottest = 0;
  event.value = table.maxCoeff(&hottest);
  event.cutter = static_cast<int>(hottest);
  if (event.value - inlet > policy::telling_quench) tell(run, event);
}

/// The string lands on the bit as it is set on bottom again.
void touch_down(RunInProgress& run, const DrillingInterval& before, const DrillingInterval& after) {
  if (!before.off_bottom || after.off_bottom) return;
  const StateLayout& layout = run.layout();
  const Evaluation& now = run.probe(run.x).evaluation();
  failure::add_touch_down_hazards(
      run.models.bit.edges,
      {layout.worn(run.x), now.heats.flat_temperature, layout.damage(run.x), run.system.lost()},
      now.edge_cuts(), after.edge_ground, layout.chip_hazard(run.x));
}

void tell_upset(RunInProgress& run, const Schedule::Change& change) {
  const bool begins = change.kind == Schedule::Kind::upset_begins;
  if (!begins && change.kind != Schedule::Kind::upset_ends) return;
  if (!begins) {
    run.course.every_step_until =
        std::max(run.course.every_step_until,
                 run.clock.time + policy::afterwards_share * run.scenario.upsets[change.upset].lasts);
  }
  Event event{begins ? EventKind::upset_begins : EventKind::upset_ends};
  event.number = static_cast<int>(change.upset) + 1;
  tell(run, event);
}

}  // namespace

void enter_interval(RunInProgress& run, const DrillingInterval& interval) {
  const double T_zero = run.models.ground.inlet_temperature;
  const double before = run.system.stored_heat(run.x, T_zero);
  run.system.enter(interval);
  run.looking_ahead.enter(interval);
  run.x(run.layout().left_in_rock()) += before - run.system.stored_heat(run.x, T_zero);
  run.begin_afresh();
}

void change_settings(RunInProgress& run) {
  const DrillingInterval before = run.schedule.current();
  if (run.schedule.upset()) run.recorder.add_row(run.x, run.clock);
  const auto changes = run.schedule.advance(run.depth(), run.clock.time);
  run.course.events_changed = true;
  if (changes.empty()) return;
  const bool mishap = std::any_of(changes.begin(), changes.end(), [](const Schedule::Change& change) {
    return change.kind == Schedule::Kind::upset_begins || change.kind == Schedule::Kind::upset_ends;
  });
  if (mishap) {
    run.recorder.add_row(run.x, run.clock);
    run.course.standstill_from = run.clock.time + policy::patience;
  }
  for (const Schedule::Change& change : changes) tell_upset(run, change);
  enter_interval(run, run.schedule.current());
  quench(run, before, run.schedule.current());
  touch_down(run, before, run.schedule.current());
  const DrillingSystem& now = run.probe(run.x);
  run.recorder.change(now);
  run.judge.enter(now, run.clock.rotating_time);
  if (mishap) run.recorder.add_row(run.x, run.clock);
}

void meet_harder_rock(RunInProgress& run, const DrillingInterval& before, const DrillingInterval& after) {
  const double harder = after.resistance.specific_energy;
  if (before.layer == after.layer || harder < policy::harder_by * before.resistance.specific_energy) return;
  const StateLayout& layout = run.layout();
  const Evaluation& now = run.here().evaluation();
  failure::add_boundary_hazards(
      run.models.bit.edges,
      {layout.worn(run.x), now.heats.flat_temperature, layout.damage(run.x), run.system.lost()},
      now.edge_cuts(), harder, now.forces.balance.depth_of_cut, layout.chip_hazard(run.x));
}

}  // namespace dullcast::simulation
