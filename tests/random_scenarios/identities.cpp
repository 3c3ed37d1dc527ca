#include "random_scenarios/identities.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "engine/simulation/assembly.hpp"

namespace dullcast::random_scenarios {
namespace {

using simulation::HistoryRow;
using simulation::RunOutcome;

// Rows between two steps lie on the step's interpolant, and a step is right to the tolerance of what it adds.
// What comes back of wear and damage between rows is far below what anyone measures; of a hazard that grows
// by the thousand it is a thousandth.
constexpr double depth_back = 1e-8;                  // m
constexpr double height_back = 1e-8;                 // m, of wear
constexpr double damage_back = 1e-5;                 // of heat damage and chip hazards, which count to 1
constexpr double hazard_back = 1e-3;                 // of a hazard's own value
constexpr double most_solids = 0.75;                 // packed grains leave a quarter of the space free
constexpr double coldest = 200.0, hottest = 4500.0;  // K; diamond melts at about 4500 K (from memory)

class Look {
 public:
  explicit Look(double tolerance) : tolerance_(tolerance) {}

  void finite(const char* name, double value) {
    if (!std::isfinite(value)) say(std::string(name) + " is no number", value);
  }
  void between(const char* name, double value, double least, double most) {
    if (!(value >= least && value <= most)) say(std::string(name) + " is out of range", value);
  }
  void share(const char* name, double value) { between(name, value, 0.0, 1.0); }
  void rises(const char* name, double before, double after) {
    if (!(after >= before)) say(std::string(name) + " falls", after - before);
  }
  void never_fall(const char* name, const Eigen::ArrayXd& before, const Eigen::ArrayXd& after, double back,
                  double of_value) {
    if (before.size() != after.size()) return say(std::string(name) + " changes its length", 0.0);
    const double worst = (before - after - back - of_value * before).maxCoeff();
    if (!(worst <= 0.0)) say(std::string(name) + " falls", worst);
  }
  void say(const std::string& words, double value) {
    // Once each: a fault mostly shows in every row that follows.
    for (const std::string& one : found_) {
      if (one.starts_with(words)) return;
    }
    char buffer[32];
    std::snprintf(buffer, sizeof buffer, " (%.4g)", value);
    found_.push_back(words + buffer);
  }
  double tolerance() const { return tolerance_; }
  std::vector<std::string> found() const { return found_; }

 private:
  double tolerance_;
  std::vector<std::string> found_;
};

struct Single {
  const char* name;
  double HistoryRow::*member;
};
constexpr Single not_negative[] = {{"time", &HistoryRow::time},
                                   {"rotating_time", &HistoryRow::rotating_time},
                                   {"depth", &HistoryRow::depth},
                                   {"footage", &HistoryRow::footage},
                                   {"weight", &HistoryRow::weight},
                                   {"rotary_speed", &HistoryRow::rotary_speed},
                                   {"flow", &HistoryRow::flow},
                                   {"depth_of_cut", &HistoryRow::depth_of_cut},
                                   {"rate_of_penetration", &HistoryRow::rate_of_penetration},
                                   {"torque", &HistoryRow::torque},
                                   {"blade_weight", &HistoryRow::blade_weight},
                                   {"energy", &HistoryRow::energy},
                                   {"plug_height", &HistoryRow::plug_height},
                                   {"flow_past_bit", &HistoryRow::flow_past_bit},
                                   {"bit_pressure_drop", &HistoryRow::bit_pressure_drop},
                                   {"lateral_force", &HistoryRow::lateral_force},
                                   {"gauge_loss", &HistoryRow::gauge_loss}};

struct PerCutter {
  const char* name;
  Eigen::ArrayXd HistoryRow::*member;
  double least, most;
};
constexpr double any = 1e300;
constexpr PerCutter per_cutter[] = {
    {"area_of_cut", &HistoryRow::area_of_cut, 0.0, any},
    {"tangential_force", &HistoryRow::tangential_force, 0.0, any},
    {"normal_force", &HistoryRow::normal_force, -any, any},
    {"contact_force", &HistoryRow::contact_force, 0.0, any},
    {"flat_temperature", &HistoryRow::flat_temperature, coldest, hottest},
    {"table_temperature", &HistoryRow::table_temperature, coldest, hottest},
    {"carbide_temperature", &HistoryRow::carbide_temperature, coldest, hottest},
    {"worn_height", &HistoryRow::worn_height, -height_back, any},
    {"flat_area", &HistoryRow::flat_area, 0.0, any},
    {"heat_damage", &HistoryRow::heat_damage, -damage_back, any},
    {"chip_hazard", &HistoryRow::chip_hazard, -damage_back, any},
    {"film", &HistoryRow::film, 0.0, 1.0}};

void look_at_row(Look& look, const HistoryRow& row, Eigen::Index cutters, bool gas) {
  for (const Single& one : not_negative) look.between(one.name, row.*one.member, 0.0, any);
  for (const double height : {row.eroded, row.blade_wear, row.pad_wear})
    look.between("wear of the body", height, -height_back, any);
  look.between("solids_fraction", row.solids_fraction, 0.0, most_solids);
  look.share("water_share", row.water_share);
  for (const double T : {row.fluid_temperature, row.body_temperature, row.rock_temperature})
    look.between("a temperature", T, coldest, hottest);
  // Of air what is pumped is told as free air, which swells and shrinks on its way to the bit.
  if (!gas && row.flow_past_bit > row.flow * (1.0 + 1e-12))
    look.say("more passes the bit than is pumped", row.flow);
  for (const PerCutter& one : per_cutter) {
    const Eigen::ArrayXd& values = row.*one.member;
    if (values.size() != cutters) return look.say("a row has another number of cutters", 0.0);
    for (const double value : values) look.between(one.name, value, one.least, one.most);
  }
  if (!(row.film == 0.0 || row.film == 1.0).all()) look.say("a film is neither there nor not", 0.0);
}

void look_between(Look& look, const HistoryRow& before, const HistoryRow& after) {
  look.rises("time", before.time, after.time);
  look.rises("rotating time", before.rotating_time, after.rotating_time);
  look.rises("footage", before.footage, after.footage + depth_back);
  look.rises("energy", before.energy, after.energy);
  if (before.hole == after.hole) look.rises("depth", before.depth, after.depth + depth_back);
  look.rises("the hole's number", before.hole, after.hole);
  look.rises("erosion", before.eroded, after.eroded + height_back);
  look.rises("blade wear", before.blade_wear, after.blade_wear + height_back);
  look.rises("pad wear", before.pad_wear, after.pad_wear + height_back);
  look.never_fall("worn height", before.worn_height, after.worn_height, height_back, 0.0);
  look.never_fall("heat damage", before.heat_damage, after.heat_damage, damage_back, 0.0);
  look.never_fall("chip hazard", before.chip_hazard, after.chip_hazard, hazard_back * look.tolerance(),
                  hazard_back);
}

constexpr double temperatures_scale = 100.0;  // K, that a step's error counts by (state_layout.hpp)

/// J/K, of the water that fills the bottom.
double heat_of_bottom_water(const scenario::Scenario& scenario) {
  double most = 0.0;
  for (const simulation::DrillingInterval& interval : simulation::assemble(scenario).intervals)
    if (interval.liquid) most = std::max(most, interval.fluid_capacity);
  return most;
}

/// How many upsets of a hole change what is pumped.
double changes_of_flow(const scenario::Scenario& scenario) {
  return static_cast<double>(
      std::count_if(scenario.upsets.begin(), scenario.upsets.end(),
                    [](const scenario::Upset& upset) { return upset.flow.has_value(); }));
}

void look_at_condition(Look& look, const simulation::BitCondition& end, Eigen::Index cutters) {
  for (const auto* values :
       {&end.worn_height, &end.heat_damage, &end.chip_hazard, &end.pocket_load, &end.bond_load}) {
    if (values->size() != cutters) return look.say("the end has another number of cutters", 0.0);
    if (!values->isFinite().all()) look.say("the end is no number", 0.0);
    if (values->minCoeff() < -damage_back) look.say("the end is below 0", values->minCoeff());
  }
  // A chance to last is exp(-hazard): between 0 and 1 as the hazard is not below 0.
  for (const double hazard : end.chip_hazard)
    look.between("a chance to last", std::exp(-hazard), 0.0, 1.0 + damage_back);
  for (const double value : {end.blade_load, end.eroded, end.blade_wear, end.pad_wear, end.gauge_loss})
    look.finite("the end", value);
  for (const auto& grade : {end.inner_dull_grade, end.outer_dull_grade})
    if (grade) look.between("a dull grade", *grade, 0.0, 8.0);
}

void look_at_passages(Look& look, const RunOutcome& outcome, const scenario::Scenario& scenario) {
  double energy = 0.0;
  for (const auto& passage : outcome.passages) {
    look.between("a passage's layer", passage.layer, 0.0,
                 static_cast<double>(scenario.column.layers.size()) - 1.0);
    look.rises("a passage's depth", passage.top, passage.bottom);
    for (const double value :
         {passage.rotating_time, passage.mean_rate_of_penetration, passage.mean_weight, passage.mean_torque,
          passage.energy, passage.chip_hazard, passage.greatest_load_share, passage.time_in_film})
      look.between("a passage's value", value, 0.0, 1e300);
    look.share("a passage's chance of a chip", passage.greatest_chip_probability);
    look.share("a lifted share", passage.lifted_share);
    look.share("a balling risk", passage.balling_risk);
    look.between("mean solids", passage.mean_solids_fraction, 0.0, most_solids);
    energy += passage.energy;
  }
  look.between("energy of all layers over that of the run", energy,
               outcome.energy - look.tolerance() * std::max(outcome.energy, 1.0),
               outcome.energy + look.tolerance() * std::max(outcome.energy, 1.0));
  double before = 0.0;
  for (const simulation::Event& event : outcome.events) {
    look.rises("the events' time", before, event.time);
    before = event.time;
    look.between("an event's depth", event.depth, 0.0, scenario.column.layers.back().bottom * (1.0 + 1e-9));
  }
}

}  // namespace

std::vector<std::string> broken_identities(const scenario::Scenario& scenario, const RunOutcome& outcome) {
  Look look(scenario.stepping.relative_tolerance);
  const Eigen::Index cutters = scenario.bit.layout.count();
  const std::vector<HistoryRow>& rows = outcome.history.rows;
  if (rows.empty()) look.say("nothing is recorded", 0.0);
  for (std::size_t k = 0; k < rows.size(); ++k) {
    look_at_row(look, rows[k], cutters, scenario.fluid.kind == scenario::FluidKind::gas);
    if (k > 0) look_between(look, rows[k - 1], rows[k]);
  }
  look_at_condition(look, outcome.end, cutters);
  look_at_passages(look, outcome, scenario);
  look.between("holes finished", outcome.holes_finished, 0.0, scenario.repeat.holes);
  for (const simulation::RuleUse& rule : outcome.rules) look.between("a rule's use", rule.used, 0.0, 1e300);
  look.rises("elapsed time over rotating time", outcome.rotating_time, outcome.elapsed_time * (1.0 + 1e-12));
  // Energies do not steer the step, and films and packing have corners; an energy below that of some seconds'
  // work is compared with that. Temperatures are right to 100 K times the tolerance, and so is the heat of
  // what water fills a hole that has run dry: a great hole's water at rest holds more than a light bit's
  // whole work (the ledger closes in proportion to the tolerance). It fills at the hole's start, and at every
  // change of what is pumped.
  const double fillings = static_cast<double>(outcome.holes.size()) * (1.0 + 2.0 * changes_of_flow(scenario));
  const double ledger = look.tolerance() * (10.0 * std::max(outcome.energy, 1e5) +
                                            temperatures_scale * fillings * heat_of_bottom_water(scenario));
  look.between("the ledger of energy", outcome.energy_residual, -ledger, ledger);
  return look.found();
}

}  // namespace dullcast::random_scenarios
