#include "engine/sweep/case_outcome.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <stdexcept>

#include "engine/analysis/economics.hpp"
#include "engine/storage/fields.hpp"

namespace dullcast::sweep {
namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

const std::vector<std::string>& rule_words() {
  static const std::vector<std::string> words{"worn_height",        "outer_dull_grade", "heat_damage",
                                              "speed_share_of_new", "chip_probability", "gauge_loss",
                                              "lost_cutters",       "beyond_repair",    "blade_sheared"};
  return words;
}

const std::vector<std::string>& end_words() {
  static const std::vector<std::string> words = [] {
    std::vector<std::string> all;
    for (const simulation::EndedBy end : storage::result_format::all_ends())
      all.emplace_back(simulation::ended_by_name(end));
    return all;
  }();
  return words;
}

double place_in(const std::vector<std::string>& words, const std::string& word) {
  const auto found = std::find(words.begin(), words.end(), word);
  return found == words.end() ? nothing : static_cast<double>(found - words.begin());
}

struct Outcome {
  const char* name;
  const char* units;
  const char* meaning;
  std::function<double(const scenario::Scenario&, const simulation::RunOutcome&)> value;
  std::vector<std::string> words = {};
};

double due_or_nothing(const simulation::RunOutcome& run,
                      const std::function<double(const simulation::Milestone&)>& value) {
  return run.rework_due ? value(*run.rework_due) : nothing;
}

double greatest(const Eigen::ArrayXd& values) {
  return values.size() > 0 ? values.maxCoeff() : nothing;
}

double hazard_gained(const scenario::Scenario& scenario, const simulation::RunOutcome& run, bool of_all) {
  const Eigen::ArrayXd& end = run.end.chip_hazard;
  if (end.size() == 0) return 0.0;
  const Eigen::ArrayXd& before = scenario.bit.starting_chip_hazard;
  const Eigen::ArrayXd gained = before.size() == end.size() ? Eigen::ArrayXd(end - before) : end;
  return of_all ? gained.sum() : gained.maxCoeff();
}

double chips_drawn(const scenario::Scenario& scenario, const simulation::RunOutcome& run) {
  return run.end.chips.sum() - scenario.bit.starting_chipped.sum();
}

/// Greatest or sum over the run's passages of one of their numbers.
double worst_passage(const simulation::RunOutcome& run, double simulation::LayerPassage::*member) {
  double worst = 0.0;
  for (const simulation::LayerPassage& passage : run.passages) worst = std::max(worst, passage.*member);
  return worst;
}

double longest_film(const simulation::RunOutcome& run) {
  double all = 0.0;
  for (const simulation::LayerPassage& passage : run.passages) all += passage.time_in_film;
  return all;
}

const std::vector<Outcome>& outcomes() {
  using S = const scenario::Scenario&;
  using R = const simulation::RunOutcome&;
  using M = const simulation::Milestone&;
  static const std::vector<Outcome> all{
      {"failed", "1", "1 where the case could not be run", [](S, R) { return 0.0; }},
      {"ended_by", "1", "why the run ended",
       [](S, R run) { return place_in(end_words(), simulation::ended_by_name(run.ended_by)); }, end_words()},
      {"holes_finished", "1", "holes drilled to the end",
       [](S, R run) { return double(run.holes_finished); }},
      {"rework_due", "1", "1 where rework fell due within the run",
       [](S, R run) { return run.rework_due ? 1.0 : 0.0; }},
      {"due_rule", "1", "rule by which rework fell due",
       [](S, R run) { return due_or_nothing(run, [](M due) { return place_in(rule_words(), due.rule); }); },
       rule_words()},
      {"due_hole", "1", "hole in which rework fell due, counted from 1",
       [](S, R run) { return due_or_nothing(run, [](M due) { return due.hole + 1.0; }); }},
      {"due_depth", "m", "depth in that hole",
       [](S, R run) { return due_or_nothing(run, [](M due) { return due.depth; }); }},
      {"due_footage", "m", "length drilled until rework fell due",
       [](S, R run) { return due_or_nothing(run, [](M due) { return due.footage; }); }},
      {"due_rotating_time", "s", "time on bottom until rework fell due",
       [](S, R run) { return due_or_nothing(run, [](M due) { return due.rotating_time; }); }},
      {"due_elapsed_time", "s", "time until rework fell due, with connections and trips",
       [](S, R run) { return due_or_nothing(run, [](M due) { return due.elapsed_time; }); }},
      {"footage", "m", "length drilled in all", [](S, R run) { return run.footage; }},
      {"rotating_time", "s", "time on bottom in all", [](S, R run) { return run.rotating_time; }},
      {"elapsed_time", "s", "time in all, with connections and trips",
       [](S, R run) { return run.elapsed_time; }},
      {"energy", "J", "work at the bit in all", [](S, R run) { return run.energy; }},
      {"mean_rate_of_penetration", "m/s", "length drilled over time on bottom",
       [](S, R run) { return run.rotating_time > 0.0 ? run.footage / run.rotating_time : nothing; }},
      {"cost_per_metre", "m-1", "money a metre, to rework due or to the run's end",
       [](S scenario, R run) {
         const auto cost = analysis::run_cost(scenario, run);
         return cost ? cost->per_metre : nothing;
       }},
      {"hottest_flat", "K", "hottest wear flat of the run", [](S, R run) { return run.hottest.temperature; }},
      {"greatest_worn_height", "m", "worn height of the most worn cutter at the end",
       [](S, R run) { return greatest(run.end.worn_height); }},
      {"greatest_heat_damage", "1", "heat damage of the most damaged cutter at the end; 1 is a ruined table",
       [](S, R run) { return greatest(run.end.heat_damage); }},
      {"expected_chips", "1", "chips expected over all cutters",
       [](S scenario, R run) { return hazard_gained(scenario, run, true); }},
      {"chip_chance", "1", "chance of a chip on the likeliest edge",
       [](S scenario, R run) { return -std::expm1(-hazard_gained(scenario, run, false)); }},
      {"chips", "1", "chips drawn", [](S scenario, R run) { return chips_drawn(scenario, run); }},
      {"cutters_lost", "1", "cutters lost at the end", [](S, R run) { return double(run.end.lost.sum()); }},
      {"tables_lost", "1", "cutters without their diamond at the end",
       [](S, R run) { return double(run.end.table_gone.sum()); }},
      {"inner_dull_grade", "1", "dull grade of the inner rows at the end, 0 to 8",
       [](S, R run) { return run.end.inner_dull_grade.value_or(nothing); }},
      {"outer_dull_grade", "1", "dull grade of the outer rows at the end, 0 to 8",
       [](S, R run) { return run.end.outer_dull_grade.value_or(nothing); }},
      {"gauge_loss", "m", "hole diameter lost at the end", [](S, R run) { return run.end.gauge_loss; }},
      {"greatest_load_share", "1", "greatest load of a seat, bond or blade over its median strength",
       [](S, R run) { return worst_passage(run, &simulation::LayerPassage::greatest_load_share); }},
      {"time_in_film", "s", "time under a film of steam, longest of any cutter in each passage, in all",
       [](S, R run) { return longest_film(run); }},
      {"steps", "1", "steps that the run took", [](S, R run) { return double(run.steps); }},
      {"right_hand_sides", "1", "evaluations of the right-hand side",
       [](S, R run) { return double(run.right_hand_sides); }},
  };
  return all;
}

struct HistoryValue {
  const char* name;
  const char* units;
  const char* meaning;
  std::function<double(const simulation::HistoryRow&)> value;
};

const std::vector<HistoryValue>& history_values() {
  using H = const simulation::HistoryRow&;
  static const std::vector<HistoryValue> all{
      {"footage", "m", "length drilled in all holes", [](H row) { return row.footage; }},
      {"rotating_time", "s", "time on bottom", [](H row) { return row.rotating_time; }},
      {"hole", "1", "hole, counted from 1", [](H row) { return row.hole + 1.0; }},
      {"depth", "m", "depth in that hole", [](H row) { return row.depth; }},
      {"rate_of_penetration", "m/s", "rate of penetration", [](H row) { return row.rate_of_penetration; }},
      {"weight", "N", "weight on bit", [](H row) { return row.weight; }},
      {"torque", "N m", "torque at the bit", [](H row) { return row.torque; }},
      {"hottest_flat", "K", "hottest wear flat at that instant",
       [](H row) { return greatest(row.flat_temperature); }},
      {"greatest_worn_height", "m", "worn height of the most worn cutter",
       [](H row) { return greatest(row.worn_height); }},
      {"greatest_heat_damage", "1", "heat damage of the most damaged cutter",
       [](H row) { return greatest(row.heat_damage); }},
      {"expected_chips", "1", "integral of all cutters' chip hazards since their edges were new",
       [](H row) { return row.chip_hazard.sum(); }},
  };
  return all;
}

template <class Values>
std::vector<storage::SweepColumn> columns_of(const Values& values) {
  std::vector<storage::SweepColumn> columns;
  for (const auto& value : values) {
    columns.push_back({value.name, value.units, value.meaning, storage::ColumnRole::outcome, {}, {}});
    if constexpr (requires { value.words; }) columns.back().words = value.words;
  }
  return columns;
}

}  // namespace

const std::vector<storage::SweepColumn>& outcome_columns() {
  static const std::vector<storage::SweepColumn> columns = columns_of(outcomes());
  return columns;
}

Eigen::Index outcome_column(const std::string& name) {
  const auto& columns = outcome_columns();
  for (std::size_t k = 0; k < columns.size(); ++k) {
    if (columns[k].name == name) return static_cast<Eigen::Index>(k);
  }
  throw std::out_of_range("no outcome is called " + name);
}

Eigen::ArrayXd outcome_values(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome) {
  Eigen::ArrayXd values(static_cast<Eigen::Index>(outcomes().size()));
  Eigen::Index k = 0;
  for (const Outcome& column : outcomes()) values(k++) = column.value(scenario, outcome);
  return values;
}

Eigen::ArrayXd outcome_of_failure() {
  Eigen::ArrayXd values = Eigen::ArrayXd::Constant(static_cast<Eigen::Index>(outcomes().size()), nothing);
  values(0) = 1.0;
  return values;
}

const std::vector<storage::SweepColumn>& history_columns() {
  static const std::vector<storage::SweepColumn> columns = columns_of(history_values());
  return columns;
}

storage::ThinHistory thin_history(long case_number, const simulation::RunOutcome& outcome, int rows) {
  const auto& values = history_values();
  storage::ThinHistory thin{
      case_number, Eigen::ArrayXXd::Constant(rows, static_cast<Eigen::Index>(values.size()), nothing)};
  const std::vector<simulation::HistoryRow>& all = outcome.history.rows;
  if (all.empty()) return thin;
  const double first = all.front().footage, last = all.back().footage;
  std::size_t at = 0;
  for (int r = 0; r < rows; ++r) {
    const double wanted = first + (last - first) * r / std::max(1, rows - 1);
    if (r == rows - 1) at = all.size() - 1;
    while (at + 1 < all.size() && all[at + 1].footage <= wanted) ++at;
    for (std::size_t k = 0; k < values.size(); ++k)
      thin.values(r, static_cast<Eigen::Index>(k)) = values[k].value(all[at]);
  }
  return thin;
}

}  // namespace dullcast::sweep
