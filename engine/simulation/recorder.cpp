#include "engine/simulation/recorder.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "models/geometry/wear_flat.hpp"
#include "models/hydraulics/hole_cleaning.hpp"
#include "models/hydraulics/port_flow.hpp"

namespace dullcast::simulation {
namespace {

/// A share of the state as it is told: a step may pass its ends by what it may be wrong by.
double told_share(double share) {
  return std::clamp(share, 0.0, 1.0);
}

}  // namespace

Recorder::Recorder(const RunModels& models, const scenario::Scenario& scenario, RunOutcome& outcome,
                   Rows rows)
    : scenario_(&scenario),
      outcome_(&outcome),
      rows_(rows),
      layout_(models.bit.bit.count()),
      probe_(models) {}

const DrillingSystem& Recorder::probe(const State& x) {
  return probe_.at(x);
}

void Recorder::enter(const DrillingSystem& now, const State& x, const RunClock& clock) {
  const DrillingInterval& interval = now.interval();
  probe_.enter(interval);
  passage_ = LayerPassage{};
  passage_.hole = clock.hole;
  passage_.layer = interval.layer;
  passage_.rock = scenario_->column.layers[static_cast<std::size_t>(interval.layer)].rock.name;
  passage_.top = x(layout_.depth());
  entry_ = x;
  entry_time_ = clock.rotating_time;
  weight_time_ = torque_time_ = solids_time_ = 0.0;
  film_time_.setZero(layout_.cutters);
  add_row(x, clock);
  last_time_ = clock.rotating_time;
  last_clock_ = clock.time;
  last_solids_ = told_share(x(layout_.solids()));
  note_heat(x, now, clock);
  stand_at(now.evaluation());
}

void Recorder::note(const State& x, const DrillingSystem& system, const RunClock& clock) {
  const Evaluation& now = system.evaluation();
  const double half = 0.5 * (clock.rotating_time - last_time_);
  weight_time_ += half * (now.forces.balance.weight + last_weight_);
  torque_time_ += half * (now.torque + last_torque_);
  solids_time_ += half * (told_share(x(layout_.solids())) + last_solids_);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    if (now.heats.film(i) > 0.0) film_time_(i) += clock.time - last_clock_;
  }
  passage_.time_in_film = film_time_.maxCoeff();
  last_clock_ = clock.time;
  last_solids_ = told_share(x(layout_.solids()));
  if (now.rate_of_penetration > 0.0) note_cleaning(system, x);
  last_time_ = clock.rotating_time;
  stand_at(now);

  note_heat(x, system, clock);
}

void Recorder::note_heat(const State& x, const DrillingSystem& system, const RunClock& clock) {
  const Evaluation& now = system.evaluation();
  Eigen::Index hottest = 0;
  const double T = now.heats.flat_temperature.maxCoeff(&hottest);
  hole_hottest_ = std::max(hole_hottest_, T);
  if (T > passage_.hottest_flat) {
    passage_.hottest_flat = T;
    passage_.hottest_cutter = static_cast<int>(hottest);
  }
  if (T > outcome_->hottest.temperature) {
    const DrillingInterval& s = system.interval();
    outcome_->hottest = {T,
                         static_cast<int>(hottest),
                         clock.hole,
                         s.layer,
                         x(layout_.depth()),
                         now.forces.balance.weight,
                         s.rotary_speed,
                         s.flow,
                         now.forces.balance.depth_of_cut,
                         now.friction.flat(hottest),
                         now.friction.face(hottest),
                         x(layout_.fluid())};
  }
}

void Recorder::note_cleaning(const DrillingSystem& system, const State& x) {
  const Evaluation& now = system.evaluation();
  const BitModels& bit = system.models().bit;
  passage_.lifted_share = std::min(passage_.lifted_share, now.bottom.lifted_share);
  const double power = hydraulics::hydraulic_power(now.bottom.slot.pressure_drop, now.bottom.slot.flow) /
                       bit.cleaning.hole_area;
  passage_.balling_risk =
      std::max(passage_.balling_risk,
               hydraulics::balling_risk(system.interval().stickiness, power, x(layout_.solids()),
                                        bit.cleaning.slots.area / bit.cleaning.hole_area));
}

void Recorder::note_retention(double greatest) {
  passage_.greatest_load_share = std::max(passage_.greatest_load_share, greatest);
}

void Recorder::stand_at(const Evaluation& now) {
  last_weight_ = now.forces.balance.weight;
  last_torque_ = now.torque;
}

void Recorder::settle(const DrillingSystem& now, const State& x) {
  stand_at(now.evaluation());
  last_solids_ = told_share(x(layout_.solids()));
}

void Recorder::change(const DrillingSystem& now) {
  probe_.enter(now.interval());
  stand_at(now.evaluation());
}

void Recorder::add_row(const State& x, const RunClock& clock) {
  if (rows_ == Rows::left_out) return;
  const DrillingSystem& system = probe(x);
  const Evaluation& now = system.evaluation();
  const BitModels& bit = system.models().bit;
  HistoryRow row;
  const double z = x(layout_.depth());
  row.time = clock.elapsed_time();
  row.rotating_time = clock.rotating_time;
  row.hole = clock.hole;
  row.layer = system.interval().layer;
  row.depth = z;
  row.footage = clock.footage_before + z;
  row.weight = now.forces.balance.weight;
  row.rotary_speed = system.interval().rotary_speed;
  row.flow = system.interval().flow;
  row.depth_of_cut = now.forces.balance.depth_of_cut;
  row.rate_of_penetration = now.rate_of_penetration;
  row.torque = now.torque;
  row.blade_weight = now.forces.balance.blade_weight;
  row.energy = clock.energy_before + x(layout_.spent());
  row.fluid_temperature = x(layout_.fluid());
  row.body_temperature = x(layout_.body());
  row.rock_temperature = x(layout_.warm());
  row.water_share = told_share(x(layout_.water()));
  row.solids_fraction = told_share(x(layout_.solids()));
  row.plug_height = now.bottom.plug.height;
  row.flow_past_bit = now.bottom.slot.flow;
  row.bit_pressure_drop = now.bottom.slot.pressure_drop;
  row.lateral_force = now.forces.lateral.force;
  row.eroded = x(layout_.eroded());
  row.blade_wear = x(layout_.blade_wear());
  row.pad_wear = x(layout_.pad_wear());
  row.gauge_loss = cutting::hole_diameter_loss(bit.bit, layout_.worn(x), system.lost_cutters());
  row.area_of_cut = now.forces.loads.area;
  row.contact_force = now.forces.loads.contact_force;
  row.tangential_force = now.forces.tangential_force;
  row.normal_force = now.forces.normal_force;
  row.flat_temperature = now.heats.flat_temperature;
  row.table_temperature = layout_.table(x);
  row.carbide_temperature = layout_.carbide(x);
  row.worn_height = layout_.worn(x);
  row.heat_damage = layout_.damage(x);
  row.chip_hazard = layout_.chip_hazard(x);
  row.film = now.heats.film;
  row.flat_area.resize(layout_.cutters);
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const geometry::CutterShape& shape = bit.bit.shape(i);
    const double u = std::clamp(row.worn_height(i), 0.0, 2.0 * shape.radius);
    const geometry::WearFlat flat =
        geometry::wear_flat(shape.radius, shape.length, shape.table_thickness, bit.bit.back_rake(i), u);
    row.flat_area(i) = flat.diamond_area + flat.carbide_area;
  }
  outcome_->history.rows.push_back(std::move(row));
}

void Recorder::leave(const State& x, const RunClock& clock) {
  add_row(x, clock);
  passage_.bottom = x(layout_.depth());
  passage_.rotating_time = clock.rotating_time - entry_time_;
  passage_.energy = x(layout_.spent()) - entry_(layout_.spent());
  if (passage_.rotating_time > 0.0) {
    passage_.mean_rate_of_penetration = (passage_.bottom - passage_.top) / passage_.rotating_time;
    passage_.mean_weight = weight_time_ / passage_.rotating_time;
    passage_.mean_torque = torque_time_ / passage_.rotating_time;
    passage_.mean_solids_fraction = solids_time_ / passage_.rotating_time;
  }
  Eigen::Index cutter = 0;
  passage_.greatest_wear_gain = (layout_.worn(x) - layout_.worn(entry_)).maxCoeff(&cutter);
  passage_.greatest_wear_cutter = static_cast<int>(cutter);
  const Eigen::ArrayXd hazard = layout_.chip_hazard(x) - layout_.chip_hazard(entry_);
  passage_.chip_hazard = hazard.sum();
  passage_.greatest_chip_probability = -std::expm1(-hazard.maxCoeff(&cutter));
  passage_.greatest_chip_cutter = static_cast<int>(cutter);
  outcome_->passages.push_back(passage_);
}

void Recorder::finish_hole(const State& x, const RunClock& clock, const BitCondition& condition) {
  HoleSummary hole;
  hole.hole = clock.hole;
  hole.depth_reached = x(layout_.depth());
  hole.rotating_time = clock.rotating_time - clock.hole_start_rotating;
  hole.connections = clock.connections;
  hole.elapsed_time = clock.time - clock.hole_start + scenario_->repeat.trip_time;
  hole.energy = x(layout_.spent());
  hole.hottest_flat = hole_hottest_;
  hole.greatest_worn_height = condition.worn_height.maxCoeff();
  hole.inner_dull_grade = condition.inner_dull_grade;
  hole.outer_dull_grade = condition.outer_dull_grade;
  outcome_->holes.push_back(hole);
  hole_hottest_ = 0.0;
}

void Recorder::add_event(Event event, const State& x, const RunClock& clock) {
  event.time = clock.elapsed_time();
  event.hole = clock.hole;
  event.depth = x(layout_.depth());
  event.footage = clock.footage_before + event.depth;
  outcome_->events.push_back(std::move(event));
}

}  // namespace dullcast::simulation
