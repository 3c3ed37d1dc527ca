#include "engine/storage/made_up_run.hpp"

#include <stdlib.h>

#include <algorithm>
#include <bit>
#include <cstdint>
#include <limits>
#include <stdexcept>
#include <system_error>

namespace dullcast::storage::made_up {
namespace {

Eigen::ArrayXd ramp(int cutters, double first, double step) {
  return Eigen::ArrayXd::LinSpaced(cutters, first, first + step * (cutters - 1));
}

/// 1 at every `every`-th cutter from the last inward, 0 elsewhere.
Eigen::ArrayXi marks(int cutters, int every) {
  Eigen::ArrayXi result = Eigen::ArrayXi::Zero(cutters);
  for (int i = cutters - 1; i > 0; i -= every) result[i] = 1;
  return result;
}

simulation::BitCondition condition(int cutters, double first_wear, double damage_step) {
  simulation::BitCondition result;
  result.worn_height = ramp(cutters, first_wear, 1e-4);
  result.heat_damage = ramp(cutters, 0.0, damage_step);
  result.chip_hazard = ramp(cutters, 0.125, 0.03125);
  result.chips = Eigen::ArrayXi::LinSpaced(cutters, 0, cutters - 1);
  result.lost = marks(cutters, 4);
  result.table_gone = marks(cutters, 3);
  result.pocket_load = ramp(cutters, 0.25, 0.0625);
  result.bond_load = ramp(cutters, 0.5, -0.015625);
  result.blade_load = 0.375;
  result.eroded = 2.5e-4;
  result.blade_wear = 3.5e-4;
  result.pad_wear = 1.5e-4;
  result.gauge_loss = 5e-4;
  return result;
}

simulation::Milestone milestone(int cutters, const std::string& rule) {
  simulation::Milestone result;
  result.hole = 4;
  result.depth = 63.25;
  result.footage = 540.75;
  result.rotating_time = 1.5e5;
  result.elapsed_time = 2.5e5;
  result.energy = 3.5e9;
  result.rule = rule;
  result.cutters = {cutters - 1, 0};
  result.condition = condition(cutters, 1e-3, 0.01);
  result.condition.outer_dull_grade = 4.25;
  return result;
}

}  // namespace

scenario::Scenario scenario(int cutters) {
  scenario::Scenario result;
  result.title = "A made-up run";
  result.file = "/nowhere/made_up.yaml";
  result.text = "title: A made-up run\nholes: 3\n";
  scenario::BitRecord& bit = result.bit;
  bit.name = "made-up bit";
  bit.kinds.front().grade.name = "standard";
  bit.body.name = "steel";
  bit.layout.bit_radius = 0.1;
  bit.layout.blades = 4;
  bit.layout.shapes.front() = {0.008, 0.013, 0.002, 0.0002, 0.0004, 0.785, 30e-6};
  bit.layout.radius = ramp(cutters, 0.01, 0.005);
  bit.layout.azimuth = ramp(cutters, 0.0, 0.3);
  bit.layout.depth = ramp(cutters, 0.002, -1e-4);
  bit.layout.back_rake = ramp(cutters, 0.26, 0.005);
  bit.layout.side_rake = ramp(cutters, 0.0, 0.001);
  bit.layout.profile_angle = ramp(cutters, 0.0, 0.05);
  bit.layout.exposure = ramp(cutters, 0.007, 0.0);
  bit.layout.kind.setZero(cutters);
  bit.layout.blade.resize(cutters);
  for (int i = 0; i < cutters; ++i) bit.layout.blade[i] = i % 4;
  bit.starting_wear = ramp(cutters, 0.0, 1e-5);
  bit.starting_damage = ramp(cutters, 0.0, 1e-3);
  bit.build = {2.5e-4, 0.0125, 0.2, 0.04, 0.03, 0.05, 0.025};
  bit.starting_chip_hazard = ramp(cutters, 0.0, 0.0078125);
  bit.starting_lost = marks(cutters, 5);
  bit.starting_table_gone = marks(cutters, 2);
  bit.starting_chipped = marks(cutters, 3);
  bit.starting_erosion = 1e-4;
  bit.starting_blade_wear = 2e-4;
  bit.starting_pad_wear = 3e-5;
  result.rules.worn_height = 0.003;
  result.rules.heat_damage = 0.5;
  result.rules.chip_probability = 0.75;
  result.rules.gauge_loss = 0.003;
  result.rules.lost_cutters = 2.0;
  return result;
}

simulation::RunOutcome plain_outcome(int cutters, int rows) {
  simulation::RunOutcome result;
  result.ended_by = simulation::EndedBy::beyond_repair;
  result.holes_finished = 2;
  result.footage = 1234.5;
  result.rotating_time = 3600.0;
  result.elapsed_time = 7200.0;
  result.energy = 1.25e9;
  result.end = condition(cutters, 0.001, 0.02);
  result.end.outer_dull_grade = 5.5;
  result.rework_due = milestone(cutters, "worn_height");
  result.beyond_repair = milestone(cutters, "beyond_repair_share");
  result.beyond_repair->cutters.clear();
  result.rules = {{"worn_height", 1.0}, {"heat_damage", 0.25}};
  result.hottest = {612.5, cutters - 1, 1, 2, 98.5, 3e4, 1.5, 0.004, 5e-4, 800.0, 60.0, 300.0};
  result.passages = {
      {0,           0,    "shale",     0.0, 40.0,  5e3,         8e-3, 2e4,  900.0, 1e8,   420.0,
       cutters - 1, 1e-5, cutters - 1, 0.5, 0.125, cutters - 1, 0.25, 0.02, 0.9,   0.375, 12.5},
      {0, 1,    "sandstone", 40.0, 62.5, 6e3, 4e-3,  3e4,  1200.0, 2e8, 520.0,
       0, 2e-5, 0,           0.75, 0.25, 0,   0.625, 0.03, 0.8,    0.0, 0.0}};
  result.holes = {{0, 120.0, 1e4, 2e4, 19, 5e8, 520.0, 1e-3, 1.5, 2.5},
                  {1, 120.0, 1.1e4, 2.1e4, 19, 6e8, 530.0, 2e-3, std::nullopt, 5.0}};
  result.events = {{simulation::EventKind::layer_entered, 0.0, 0, 0.0, 0.0, -1, "Hole 1 enters shale."},
                   {simulation::EventKind::table_ruined, 500.0, 1, 33.5, 153.5, 2,
                    "The table of cutter 3 is ruined at 750 °C."}};
  for (int k = 0; k < rows; ++k) {
    simulation::HistoryRow row;
    row.time = 10.0 * k;
    row.rotating_time = 8.0 * k;
    row.hole = k / 100;
    row.layer = k % 5;
    row.depth = 0.5 * k;
    row.footage = 0.75 * k;
    row.weight = 30000.0 + k;
    row.rotary_speed = 1.5;
    row.flow = 0.004;
    row.depth_of_cut = 0.0005;
    row.rate_of_penetration = 0.00075;
    row.torque = 1000.0 + k;
    row.energy = 1e6 * k;
    row.fluid_temperature = 290.0 + 0.01 * k;
    row.body_temperature = 300.0 + 0.01 * k;
    row.rock_temperature = 310.0 + 0.02 * k;
    row.water_share = 1.0 - 1e-4 * k;
    row.solids_fraction = 0.02 + 1e-6 * k;
    row.plug_height = 0.3 + 1e-5 * k;
    row.flow_past_bit = 0.004 - 1e-7 * k;
    row.bit_pressure_drop = 2e5 + k;
    row.lateral_force = 500.0 + k;
    row.eroded = 1e-8 * k;
    row.blade_wear = 2e-8 * k;
    row.pad_wear = 3e-8 * k;
    row.gauge_loss = 6e-8 * k;
    row.area_of_cut = ramp(cutters, 1e-5, 1e-7);
    row.tangential_force = ramp(cutters, 1000.0 + k, 1.0);
    row.normal_force = ramp(cutters, 2000.0 + k, 1.0);
    row.contact_force = ramp(cutters, 500.0 + k, 1.0);
    row.flat_temperature = ramp(cutters, 400.0 + 0.5 * k, 10.0);
    row.table_temperature = ramp(cutters, 350.0 + 0.5 * k, 10.0);
    row.carbide_temperature = ramp(cutters, 320.0 + 0.5 * k, 10.0);
    row.worn_height = ramp(cutters, 1e-6 * k, 1e-6 * k);
    row.flat_area = ramp(cutters, 1e-6, 1e-6);
    row.heat_damage = ramp(cutters, 0.0, 1e-4 * k);
    row.chip_hazard = ramp(cutters, 1e-3 * k, 1e-4 * k);
    row.film = marks(cutters, k % 3 + 1).cast<double>();
    result.history.rows.push_back(row);
  }
  result.steps = 5'000'000'000;
  result.refused_steps = 12;
  result.right_hand_sides = 20'000'000'000;
  result.energy_residual = -0.125;
  return result;
}

simulation::RunOutcome awkward_outcome(int cutters) {
  using Limits = std::numeric_limits<double>;
  const std::vector<double> odd = {std::bit_cast<double>(std::uint64_t{0x7ff8'0000'dead'beef}),
                                   Limits::infinity(),
                                   -Limits::infinity(),
                                   -0.0,
                                   Limits::denorm_min(),
                                   Limits::max(),
                                   Limits::lowest(),
                                   0.1};
  simulation::RunOutcome result = plain_outcome(cutters, 7);
  std::size_t next = 0;
  const auto scatter = [&](Eigen::ArrayXd& array) {
    for (double& value : array) value = odd[next++ % odd.size()];
  };
  for (simulation::HistoryRow& row : result.history.rows) {
    row.torque = odd[next++ % odd.size()];
    row.energy = odd[next++ % odd.size()];
    scatter(row.flat_temperature);
    scatter(row.worn_height);
    scatter(row.heat_damage);
    scatter(row.chip_hazard);
    scatter(row.film);
    row.water_share = odd[next++ % odd.size()];
    row.gauge_loss = odd[next++ % odd.size()];
  }
  scatter(result.end.worn_height);
  scatter(result.rework_due->condition.heat_damage);
  scatter(result.end.pocket_load);
  scatter(result.end.bond_load);
  result.end.chips = std::numeric_limits<int>::max();
  result.end.blade_load = odd[0];
  result.end.pad_wear = -0.0;
  result.passages[0].greatest_load_share = Limits::infinity();
  result.passages[1].lifted_share = odd[0];
  result.end.inner_dull_grade = -0.0;
  result.end.outer_dull_grade.reset();
  result.energy_residual = odd[0];
  result.hottest.temperature = Limits::infinity();
  result.ended_by = simulation::EndedBy::stopped_drilling;
  result.rules.clear();
  result.passages[0].rock.clear();
  result.passages[1].rock = "грунт, ürgestein, 砂岩 \"hard\"\n\tand 'odd' \\ # : {}";
  result.events[0].text = std::string(100'000, 'x');
  result.events[1].text.clear();
  result.rework_due->rule.clear();
  result.beyond_repair.reset();
  return result;
}

Folder::Folder() {
  std::string name = (std::filesystem::temp_directory_path() / "dullcast-results-XXXXXX").string();
  if (mkdtemp(name.data()) == nullptr) throw std::system_error(errno, std::generic_category(), name);
  path_ = name;
  std::filesystem::permissions(path_, std::filesystem::perms{0755});
}

Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::vector<std::string> Folder::names() const {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(path_))
    names.push_back(entry.path().filename());
  std::sort(names.begin(), names.end());
  return names;
}

}  // namespace dullcast::storage::made_up
