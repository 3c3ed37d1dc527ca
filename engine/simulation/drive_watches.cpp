// What happens along the way of a run: what is watched for, and what is done about it. Chips, lost cutters
// and the like are in drive_failures.cpp.
#include <algorithm>
#include <cmath>

#include "engine/simulation/drive.hpp"
#include "models/common/constants.hpp"

namespace dullcast::simulation {
namespace {

/// A driller waits this long after a mishap before he calls a bit that stands still stopped [asm].
constexpr double patience = 300.0;  // s

/// Every step is kept for this share of an upset's length after it.
constexpr double afterwards_share = 2.0;

constexpr double packed_from = 0.9, clear_from = 0.5;  // packing
constexpr double dry_from = 0.02;                      // water at the bottom over its full amount

}  // namespace

void Drive::act_on(int event) {
  EventFunction& watch = event_functions_[static_cast<std::size_t>(event)];
  watch.armed = false;
  watch.act();
}

bool Drive::act_on_what_is_already_due() {
  const DrillingSystem& now = probe(x_);
  for (std::size_t k = 0; k < event_functions_.size(); ++k) {
    if (event_functions_[k].armed && event_functions_[k].value(x_, now) >= 0.0) {
      act_on(static_cast<int>(k));
      return true;
    }
  }
  return false;
}

void Drive::arm(const DrillingInterval& stretch) {
  rearm_ = false;
  event_functions_.clear();
  const Eigen::Index z = layout().depth();
  event_functions_.push_back(
      {[z, bottom = stretch.bottom](const State& x, const DrillingSystem&) { return x(z) - bottom; },
       [this, bottom = stretch.bottom] {
         x_(layout().depth()) = bottom;
         bottom_reached_ = true;
       },
       false, 1e-9});
  if (const double next = schedule_.next_depth(); next < stretch.bottom) {
    event_functions_.push_back({[z, next](const State& x, const DrillingSystem&) { return x(z) - next; },
                                [this, next] {
                                  x_(layout().depth()) = next;
                                  change_settings();
                                },
                                false, 1e-9});
  }
  arm_conditions();
  arm_failures();
  arm_cooling();
  arm_heavy_string(stretch);
}

void Drive::arm_conditions() {
  if (schedule_.as_planned() && clock_.time >= standstill_from_ - same_time) {
    event_functions_.push_back(
        {[least = scenario_.rules.least_progress](const State&, const DrillingSystem& system) {
           return least - system.evaluation().rate_of_penetration;
         },
         [this] { stop_drilling(); }, true});
  }
  if (!outcome_.rework_due) {
    event_functions_.push_back(
        {[this](const State& x, const DrillingSystem&) { return judge_.worst(x, marks_, false).used - 1.0; },
         [this] { rework_falls_due(false); }});
  }
  if (!outcome_.beyond_repair) {
    event_functions_.push_back(
        {[this](const State& x, const DrillingSystem&) { return judge_.beyond_repair_use(x, marks_) - 1.0; },
         [this] { passes_repair(); }});
  }
  for (Eigen::Index i = 0; i < layout().cutters; ++i) {
    if (system_.ruined(i) || system_.lost(i)) continue;
    event_functions_.push_back(
        {[this, i](const State& x, const DrillingSystem&) { return layout().damage(x)(i) - 1.0; },
         [this, i] { table_is_ruined(i); }});
  }
  event_functions_.push_back({[](const State&, const DrillingSystem& system) {
                                return system.evaluation().balance.blade_weight > 0.0 ? 1.0 : -1.0;
                              },
                              [this] { blade_starts_to_rub(); }, true});
}

void Drive::arm_failures() {
  event_functions_.push_back(
      {[this](const State& x, const DrillingSystem& system) {
         retention_loads(system, x, trial_loads_);
         return weakest_link(trial_loads_, strengths_, marks_.lost, marks_.table_gone).used - 1.0;
       },
       [this] { something_lets_go(); }, true});
  if (!scenario_.random_events.drawn) return;
  for (Eigen::Index i = 0; i < layout().cutters; ++i) {
    if (system_.lost(i)) continue;
    event_functions_.push_back({[this, i](const State& x, const DrillingSystem&) {
                                  return layout().chip_hazard(x)(i) - chip_at_(i);
                                },
                                [this, i] { chip(i); }});
  }
}

void Drive::arm_cooling() {
  event_functions_.push_back(
      {[](const State& x, const DrillingSystem& system) { return system.near_boiling(x); },
       [this] { fluid_boils(); }});
  event_functions_.push_back({[this](const State&, const DrillingSystem& system) {
                                return (system.evaluation().film.maxCoeff() > 0.0) != steamed_ ? 1.0 : -1.0;
                              },
                              [this] { film_changes(); }, true});
  event_functions_.push_back({[this](const State&, const DrillingSystem& system) {
                                const double packing = system.evaluation().slot.packing;
                                return packed_ ? clear_from - packing : packing - packed_from;
                              },
                              [this] { slots_change(); }, true});
  if (!dry_) {
    event_functions_.push_back(
        {[this](const State& x, const DrillingSystem&) { return dry_from - x(layout().water()); },
         [this] {
           dry_ = true;
           tell(EventKind::runs_dry, -1, "The last water at the bottom has boiled away.");
         }});
  }
}

/// Watches in the first hole for the depth from which the string alone weighs more than the limit.
void Drive::arm_heavy_string(const DrillingInterval& stretch) {
  if (stretch.weight_stated || heavy_string_told_) return;
  const double heavy = cutting::depth_where_string_weighs(models_.ground.string, scenario_.weight_limit,
                                                          stretch.string_fluid_density);
  if (!(heavy < stretch.bottom)) return;
  const Eigen::Index z = layout().depth();
  event_functions_.push_back(
      {[z, heavy](const State& x, const DrillingSystem&) { return x(z) - heavy; },
       [this] {
         heavy_string_told_ = true;
         tell(EventKind::string_too_heavy, -1,
              "From here the string alone puts more than the weight limit on the bit: hold "
              "back.");
       }});
}

void Drive::change_settings() {
  const DrillingInterval before = schedule_.current();
  if (schedule_.upset()) recorder_.add_row(x_, clock_);
  const auto changes = schedule_.advance(depth(), clock_.time);
  rearm_ = true;
  if (changes.empty()) return;
  const bool mishap = std::any_of(changes.begin(), changes.end(), [](const Schedule::Change& change) {
    return change.kind == Schedule::Kind::upset_begins || change.kind == Schedule::Kind::upset_ends;
  });
  if (mishap) {
    recorder_.add_row(x_, clock_);
    standstill_from_ = clock_.time + patience;
  }
  for (const Schedule::Change& change : changes) tell_change(change);
  enter(schedule_.current());
  quench(before, schedule_.current());
  recorder_.change(schedule_.current(), x_);
  judge_.enter(probe(x_), clock_.rotating_time);
  if (mishap) recorder_.add_row(x_, clock_);
}

void Drive::tell_change(const Schedule::Change& change) {
  if (change.kind == Schedule::Kind::upset_begins) {
    tell(EventKind::upset_begins, -1, "Upset " + std::to_string(change.upset + 1) + " begins.");
  } else if (change.kind == Schedule::Kind::upset_ends) {
    every_step_until_ =
        std::max(every_step_until_, clock_.time + afterwards_share * scenario_.upsets[change.upset].lasts);
    tell(EventKind::upset_ends, -1, "Upset " + std::to_string(change.upset + 1) + " ends.");
  }
}

void Drive::film_changes() {
  steamed_ = !steamed_;
  rearm_ = true;
  const EventKind kind = steamed_ ? EventKind::film_forms : EventKind::surface_rewets;
  // A film that ends because the water has boiled away is told as running dry.
  if (!steamed_ && probe(x_).evaluation().wetted_share < 0.5) return;
  if (!first_in_hole(kind)) return;
  Eigen::Index cutter = 0;
  layout().table(x_).maxCoeff(&cutter);
  tell(kind, static_cast<int>(cutter),
       steamed_ ? "Boiling turns to a film of steam on the hottest cutter, which cools badly."
                : "The last film of steam collapses: water wets every cutter again.");
}

void Drive::slots_change() {
  packed_ = !packed_;
  rearm_ = true;
  const EventKind kind = packed_ ? EventKind::slots_pack : EventKind::slots_clear;
  if (!first_in_hole(kind)) return;
  tell(kind, -1,
       packed_ ? "Cuttings pack the junk slots: the bit grinds them again and cools badly."
               : "The junk slots are flushed clear.");
}

void Drive::ruin(Eigen::Index cutter) {
  on_all_systems([cutter](DrillingSystem& system) { system.set_ruined(cutter); });
}

void Drive::table_is_ruined(Eigen::Index i) {
  ruin(i);
  tell(EventKind::table_ruined, static_cast<int>(i),
       "Heat has ruined the diamond table; from here it wears like carbide.");
}

Milestone Drive::milestone(const std::string& rule) {
  Milestone m;
  m.hole = clock_.hole;
  m.depth = depth();
  m.footage = clock_.footage_before + depth() - top();
  m.rotating_time = clock_.rotating_time;
  m.elapsed_time = clock_.elapsed_time();
  m.energy = clock_.energy_before + x_(layout().spent());
  m.rule = rule;
  m.cutters = judge_.cutters_of(rule, x_, marks_);
  m.condition = condition();
  return m;
}

BitCondition Drive::condition() const {
  return judge_.condition(x_, marks_);
}

/// `hole_done`: the whole hole is drilled, so that its speed can be judged.
void Drive::rework_falls_due(bool hole_done) {
  const std::string rule = judge_.worst(x_, marks_, hole_done).rule;
  outcome_.rules = judge_.uses(x_, marks_);
  outcome_.rework_due = milestone(rule);
  const auto& cutters = outcome_.rework_due->cutters;
  tell(EventKind::rework_due, cutters.empty() ? -1 : cutters.front(),
       "Rework is due by the rule " + rule + ".");
  if (scenario_.repeat.stop_at == scenario::StopAt::rework_due) stop(EndedBy::rework_due);
}

void Drive::passes_repair() {
  outcome_.beyond_repair = milestone("beyond_repair");
  const auto& cutters = outcome_.beyond_repair->cutters;
  tell(EventKind::beyond_repair, cutters.empty() ? -1 : cutters.front(),
       "Worn past what a usual rework puts right: pockets and blades start to go.");
  if (scenario_.repeat.stop_at == scenario::StopAt::beyond_repair) stop(EndedBy::beyond_repair);
}

void Drive::blade_starts_to_rub() {
  if (!first_in_hole(EventKind::blade_rubs)) return;
  const double radius = probe(x_).evaluation().rubbing.contact_radius;
  tell(EventKind::blade_rubs, -1,
       "A blade carries weight at radius " + std::to_string(std::lround(1e3 * radius)) + " mm.");
}

void Drive::fluid_boils() {
  if (!first_in_hole(EventKind::fluid_boils)) return;
  tell(EventKind::fluid_boils, -1, "Water at the bit boils.");
}

void Drive::stop_drilling() {
  const bool no_weight = !(probe(x_).evaluation().weight_asked > 0.0);
  tell(EventKind::stopped_drilling, -1,
       no_weight ? "No weight is on the bit: the holdback carries pull-down and string."
                 : "The bit no longer drills at the least progress asked for.");
  stop(EndedBy::stopped_drilling);
}

void Drive::announce_layer(const DrillingInterval& stretch) {
  // A change of settings within one layer is no new layer.
  if (&stretch != &models_.intervals.front() && (&stretch - 1)->layer == stretch.layer) return;
  const std::string& rock = scenario_.column.layers[static_cast<std::size_t>(stretch.layer)].rock.name;
  tell(EventKind::layer_entered, -1, "Enters " + rock + ".");
}

void Drive::stop(EndedBy why) {
  outcome_.ended_by = why;
  stopped_ = true;
}

void Drive::tell(EventKind kind, int cutter, std::string text) {
  recorder_.add_event(kind, x_, clock_, cutter, std::move(text));
}

bool Drive::first_in_hole(EventKind kind) {
  const bool told = std::find(told_in_hole_.begin(), told_in_hole_.end(), kind) != told_in_hole_.end();
  if (!told) told_in_hole_.push_back(kind);
  return !told;
}

}  // namespace dullcast::simulation
