#include "engine/shop/bit_life.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <limits>
#include <stdexcept>
#include <utility>

#include "engine/analysis/bit_bill.hpp"
#include "engine/analysis/drawn_band.hpp"
#include "engine/analysis/drawn_hole.hpp"
#include "engine/analysis/layer_hole.hpp"
#include "engine/analysis/number_effects.hpp"
#include "engine/base/machine_fault.hpp"
#include "engine/simulation/run.hpp"

namespace dullcast::shop {
namespace {

constexpr const char* from_bit_to_bit = "bit_to_bit_wear";

/// Marks in a bit's story beside the numbers of holes, which are 0 or more.
constexpr long reworked_mark = -1, renewed_mark = -2;

}  // namespace

FutureDrill::FutureDrill(const ShopPlan& plan, int future)
    : plan_(plan), luck_(plan.seed, future), holes_(plan.holes.size()) {}

const scenario::Scenario& FutureDrill::in_this_future(std::size_t hole) {
  if (holes_.empty()) holes_.resize(plan_.holes.size());
  std::unique_ptr<scenario::Scenario>& kept = holes_[hole];
  if (kept) return *kept;
  const scenario::Scenario& given = plan_.holes[hole].scenario;
  std::vector<std::string> names = analysis::uncertain_numbers(given);
  std::erase(names, from_bit_to_bit);
  std::vector<double> coordinates;
  coordinates.reserve(names.size());
  for (const std::string& name : names) coordinates.push_back(luck_.number(name));
  kept = std::make_unique<scenario::Scenario>(
      analysis::with_numbers_drawn(given, names, std::move(coordinates)));
  return *kept;
}

scenario::Scenario FutureDrill::ready(const BitLife& life, std::size_t hole, double from) {
  scenario::Scenario ready = in_this_future(hole);
  if (!std::isnan(from)) ready = analysis::rest_of_hole(std::move(ready), from);
  scenario::Quantity& wear = ready.numbers.bit_to_bit_wear;
  wear.central =
      analysis::sensible_number_at(from_bit_to_bit, wear, luck_.bit_to_bit(life.bit, life.generation));
  ready.random_events = {true, luck_.bit_seed(life.bit, life.generation, life.reworks), life.runs};
  analysis::start_from(ready, life.condition);
  return ready;
}

HoleDrilled FutureDrill::run(const BitLife& life, std::size_t hole, double from) {
  scenario::Scenario scenario = ready(life, hole, from);
  simulation::RunOutcome run = simulation::run(scenario, {}, simulation::Rows::left_out);
  ++drilled_;
  if (run.rework_due && run.ended_by == simulation::EndedBy::last_hole) {
    // Nobody waits for a bit that is due and crawls; how fast it can go a new one tells.
    BitLife fresh = new_life(plan_, life.bit, life.design, life.generation);
    const scenario::Scenario beside = ready(fresh, hole, from);
    const simulation::RunOutcome as_new = simulation::run(beside, {}, simulation::Rows::left_out);
    ++drilled_;
    const double least = analysis::patience_share * analysis::slowest_layer(as_new);
    if (as_new.ended_by == simulation::EndedBy::last_hole && analysis::slowest_layer(run) < least) {
      scenario.rules.least_progress = std::max(scenario.rules.least_progress, least);
      run = simulation::run(scenario, {}, simulation::Rows::left_out);
      ++drilled_;
    }
  }
  HoleDrilled drilled;
  const double top = scenario.column.layers.front().top, bottom = scenario.column.layers.back().bottom;
  drilled.after = std::move(run.end);
  drilled.seconds = run.elapsed_time;
  drilled.due_seconds = run.rework_due ? run.rework_due->elapsed_time : run.elapsed_time;
  drilled.metres = run.footage;
  drilled.depth = top + run.footage;
  // Stopped in the last of its depth: nothing is left that a bit could be sent down for.
  drilled.finished = run.ended_by == simulation::EndedBy::last_hole || !(drilled.depth < bottom - 1e-3);
  drilled.blade_sheared = run.ended_by == simulation::EndedBy::blade_sheared;
  if (run.rework_due) drilled.due = run.rework_due->rule;
  if (drilled.due.empty() && run.ended_by != simulation::EndedBy::last_hole) drilled.due = "failed";
  return drilled;
}

const HoleDrilled& FutureDrill::drill(BitLife& life, std::size_t hole, double from) {
  std::vector<long> key = life.story;
  key.push_back(static_cast<long>(hole));
  if (!std::isnan(from)) key.push_back(std::bit_cast<long>(from));
  auto found = known_.find(key);
  if (found == known_.end()) {
    try {
      found = known_.emplace(key, run(life, hole, from)).first;
    } catch (const std::exception& error) {
      if (base::is_machine_fault(error)) throw;
      const std::string bit = life.bit < plan_.bits.size() ? plan_.bits[life.bit].name : "an added bit";
      throw std::runtime_error(plan_.holes[hole].name + " with " + bit + ": " + error.what());
    }
  }
  life.condition = found->second.after;
  life.story = std::move(key);
  ++life.runs;
  return found->second;
}

BitLife life_of(const ShopPlan& plan, std::size_t bit) {
  BitLife life;
  life.bit = bit;
  life.design = plan.bits[bit].design;
  life.condition = plan.bits[bit].condition;
  life.story = {static_cast<long>(bit)};
  return life;
}

BitLife new_life(const ShopPlan& plan, std::size_t bit, std::size_t design, int generation) {
  BitLife life;
  life.bit = bit;
  life.design = design;
  life.generation = generation;
  life.condition = analysis::unused(plan.designs[design].bit.layout);
  life.story = {static_cast<long>(bit), renewed_mark, static_cast<long>(generation)};
  return life;
}

void rework(BitLife& life, const geometry::BitLayout& layout, const condition::RepairPlan& plan) {
  life.condition = analysis::reworked(std::move(life.condition), layout, plan);
  life.story.push_back(reworked_mark);
  ++life.reworks;
  life.runs = 0;
}

}  // namespace dullcast::shop
