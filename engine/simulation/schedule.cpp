#include "engine/simulation/schedule.hpp"

#include <algorithm>
#include <cmath>

namespace dullcast::simulation {
namespace {

constexpr double never = std::numeric_limits<double>::infinity();

void change(const scenario::Upset& upset, scenario::OperatingInterval& interval) {
  if (upset.flow) interval.flow = *upset.flow;
  if (upset.mist_water) interval.mist_water = *upset.mist_water;
  // Air that stops carries no mist.
  if (!(interval.flow > 0.0)) interval.mist_water = 0.0;
  if (upset.weight_on_bit) interval.weight_on_bit = *upset.weight_on_bit;
  if (upset.rotary_speed) interval.rotary_speed = *upset.rotary_speed;
}

}  // namespace

Schedule::Schedule(const scenario::Scenario& scenario, const RunModels& models)
    : scenario_(&scenario), models_(&models), begun_(scenario.upsets.size(), 0) {}

void Schedule::begin_hole(int hole, double top) {
  hole_ = hole;
  connections_ = 0;
  connecting_ = false;
  active_.clear();
  std::fill(begun_.begin(), begun_.end(), char{0});
  const double every = scenario_->repeat.connection_every;
  next_connection_ = every > 0.0 && scenario_->repeat.connection_time > 0.0
                         ? (std::floor(top / every + same_depth) + 1.0) * every
                         : never;
}

void Schedule::follow(const DrillingInterval& planned) {
  planned_ = &planned;
  apply();
}

double Schedule::next_connection() const {
  // The last rod is down when the hole is: none is added at its bottom. Nothing new begins off bottom.
  return connecting_ || !(next_connection_ < models_->intervals.back().bottom - same_depth)
             ? never
             : next_connection_;
}

void Schedule::pass_connection() {
  next_connection_ += scenario_->repeat.connection_every;
  ++connections_;
}

double Schedule::next_upset() const {
  double next = never;
  if (connecting_) return next;
  for (std::size_t k = 0; k < scenario_->upsets.size(); ++k) {
    const scenario::Upset& upset = scenario_->upsets[k];
    if (!begun_[k] && (upset.hole < 0 || upset.hole == hole_)) next = std::min(next, upset.from);
  }
  return next;
}

double Schedule::next_time() const {
  double next = connecting_ ? connection_ends_ : never;
  for (const Active& active : active_) next = std::min(next, active.ends);
  return next;
}

std::vector<Schedule::Change> Schedule::advance(double z, double t) {
  std::vector<Change> changes;
  if (connecting_ && t >= connection_ends_ - same_time) {
    connecting_ = false;
    changes.push_back({Kind::connection_ends, 0});
  }
  for (const Active& active : active_) {
    if (t >= active.ends - same_time) changes.push_back({Kind::upset_ends, active.upset});
  }
  std::erase_if(active_, [t](const Active& active) { return t >= active.ends - same_time; });
  // A rod due at the same depth goes first: what begins there begins on bottom.
  if (!connecting_ && z >= next_connection_ - same_depth &&
      next_connection_ < models_->intervals.back().bottom - same_depth) {
    pass_connection();
    connecting_ = true;
    connection_ends_ = t + scenario_->repeat.connection_time;
    changes.push_back({Kind::connection_begins, 0});
  }
  for (std::size_t k = 0; k < scenario_->upsets.size() && !connecting_; ++k) {
    const scenario::Upset& upset = scenario_->upsets[k];
    if (begun_[k] || (upset.hole >= 0 && upset.hole != hole_) || z < upset.from - same_depth) continue;
    begun_[k] = 1;
    active_.push_back({k, t + upset.lasts});
    changes.push_back({Kind::upset_begins, k});
  }
  if (!changes.empty()) apply();
  return changes;
}

int Schedule::connections(double z) const {
  const scenario::Repeat& repeat = scenario_->repeat;
  if (repeat.connection_time > 0.0 || !(repeat.connection_every > 0.0)) return connections_;
  return static_cast<int>(std::max(0.0, std::ceil(z / repeat.connection_every - 1e-9) - 1.0));
}

void Schedule::lift(scenario::OperatingInterval& interval) const {
  interval.weight_on_bit = 0.0;
  interval.rotary_speed = 0.0;
  if (!scenario_->repeat.pump_at_connections) interval.flow = interval.mist_water = 0.0;
}

DrillingInterval Schedule::while_connecting() const {
  scenario::OperatingInterval interval = planned_->settings;
  lift(interval);
  DrillingInterval lifted = with_settings(*scenario_, models_->bit, *planned_, interval);
  lifted.off_bottom = true;
  return lifted;
}

void Schedule::apply() {
  if (as_planned()) {
    current_ = planned_;
    return;
  }
  scenario::OperatingInterval interval = planned_->settings;
  for (const Active& active : active_) change(scenario_->upsets[active.upset], interval);
  if (connecting_) lift(interval);
  DrillingInterval& slot = changed_[next_slot_];
  next_slot_ = 1 - next_slot_;
  slot = with_settings(*scenario_, models_->bit, *planned_, interval);
  // Lifted or not turning, the bit spends no time rotating on bottom.
  slot.off_bottom = connecting_ || !(interval.rotary_speed > 0.0) ||
                    (interval.weight_on_bit && !(*interval.weight_on_bit > 0.0));
  current_ = &slot;
}

}  // namespace dullcast::simulation
