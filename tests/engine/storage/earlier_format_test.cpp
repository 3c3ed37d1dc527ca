#include <H5Cpp.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <functional>

#include "engine/base/file_error.hpp"
#include "engine/storage/changed_file.hpp"
#include "engine/storage/fields.hpp"
#include "engine/storage/made_up_run.hpp"
#include "engine/storage/same_values.hpp"
#include "engine/storage/starting_state.hpp"
#include "engine/storage/stored_run.hpp"
#include "engine/storage/write_result.hpp"

/// format_1_0.h5 was written by a program of format 1.0 from what made_up::plain_outcome(3, 2) was then.
namespace dullcast::storage {
namespace {

using same_values::same;

std::string earlier_file() {
  return std::string(DULLCAST_SOURCE_DIR) + "/tests/engine/storage/format_1_0.h5";
}

simulation::BitCondition as_of_1_0(const simulation::BitCondition& condition) {
  simulation::BitCondition result;
  result.worn_height = condition.worn_height;
  result.heat_damage = condition.heat_damage;
  result.inner_dull_grade = condition.inner_dull_grade;
  result.outer_dull_grade = condition.outer_dull_grade;
  const Eigen::Index cutters = condition.worn_height.size();
  result.chip_hazard = result.pocket_load = result.bond_load = Eigen::ArrayXd::Zero(cutters);
  result.chips = result.lost = result.table_gone = Eigen::ArrayXi::Zero(cutters);
  return result;
}

/// The outcome as a program of today has it from a file that lacks what 1.1 added: a share of 1 where that
/// means an untouched hole, no cutter, no hazard and no wear elsewhere.
simulation::RunOutcome as_of_1_0(simulation::RunOutcome outcome) {
  for (simulation::HistoryRow& row : outcome.history.rows) {
    row.rock_temperature = row.solids_fraction = row.flow_past_bit = row.bit_pressure_drop = 0.0;
    row.lateral_force = row.eroded = row.blade_wear = row.pad_wear = row.gauge_loss = 0.0;
    row.water_share = 1.0;
    row.plug_height = 0.0;
    row.chip_hazard.setZero();
    row.film.setZero();
  }
  for (simulation::LayerPassage& passage : outcome.passages) {
    passage.chip_hazard = passage.greatest_chip_probability = passage.greatest_load_share = 0.0;
    passage.mean_solids_fraction = passage.balling_risk = passage.time_in_film = 0.0;
    passage.greatest_chip_cutter = 0;
    passage.lifted_share = 1.0;
  }
  outcome.end = as_of_1_0(outcome.end);
  outcome.rework_due->condition = as_of_1_0(outcome.rework_due->condition);
  outcome.beyond_repair->condition = as_of_1_0(outcome.beyond_repair->condition);
  return outcome;
}

TEST(EarlierFormat, AFileOfFormat10IsReadAndItsGapsAreZero) {
  const StoredRun stored = read_result(earlier_file());
  EXPECT_EQ(stored.format_major, 1);
  EXPECT_EQ(stored.format_minor, 0);
  EXPECT_EQ(stored.program_version, "0.1.0");
  EXPECT_TRUE(same(stored.outcome, as_of_1_0(made_up::plain_outcome(3, 2))));
  ASSERT_EQ(stored.band.size(), 1U);
  EXPECT_EQ(stored.band[0].hottest_flat, 612.5);

  const scenario::Scenario scenario = made_up::scenario(3);
  EXPECT_TRUE(same(stored.layout, scenario.bit.layout));
  EXPECT_TRUE(same(stored.starting_wear, scenario.bit.starting_wear));
  EXPECT_TRUE(same(stored.build, scenario::BitBuild{}));
  EXPECT_TRUE(same(stored.starting_chip_hazard, Eigen::ArrayXd(Eigen::ArrayXd::Zero(3))));
  EXPECT_TRUE(same(stored.starting_lost, Eigen::ArrayXi(Eigen::ArrayXi::Zero(3))));
  EXPECT_TRUE(same(stored.starting_table_gone, Eigen::ArrayXi(Eigen::ArrayXi::Zero(3))));
  EXPECT_EQ(stored.starting_erosion, 0.0);
  scenario::ReworkRules rules = scenario.rules;
  rules.chip_probability.reset();
  rules.gauge_loss.reset();
  rules.lost_cutters.reset();
  EXPECT_TRUE(same(stored.rules, rules));
}

TEST(EarlierFormat, ABitGoesOnFromAFileOfFormat10WithTheRestUntouched) {
  scenario::Scenario scenario = made_up::scenario(3);
  ASSERT_EQ(scenario.bit.starting_lost.sum(), 1);
  apply_starting_state(scenario, read_result(earlier_file()));
  const simulation::BitCondition end = made_up::plain_outcome(3, 2).end;
  EXPECT_TRUE(same(scenario.bit.starting_wear, end.worn_height));
  EXPECT_TRUE(same(scenario.bit.starting_damage, end.heat_damage));
  EXPECT_TRUE(same(scenario.bit.starting_chip_hazard, Eigen::ArrayXd(Eigen::ArrayXd::Zero(3))));
  EXPECT_TRUE(same(scenario.bit.starting_lost, Eigen::ArrayXi(Eigen::ArrayXi::Zero(3))));
  EXPECT_TRUE(same(scenario.bit.starting_table_gone, Eigen::ArrayXi(Eigen::ArrayXi::Zero(3))));
  EXPECT_EQ(scenario.bit.starting_erosion, 0.0);
  EXPECT_EQ(scenario.bit.starting_blade_wear, 0.0);
  EXPECT_EQ(scenario.bit.starting_pad_wear, 0.0);
}

/// What is said of format_1_0.h5 after a change.
std::string said_after(const std::function<void(H5::H5File&)>& change) {
  const made_up::Folder folder;
  const std::string path = folder / "run.h5";
  std::filesystem::copy_file(earlier_file(), path);
  changed_file::change(path, change);
  try {
    read_result(path);
  } catch (const base::FileError& error) {
    return error.reason();
  }
  return "read";
}

TEST(EarlierFormat, TheEarliestFilesHaveNoBand) {
  EXPECT_EQ(said_after([](H5::H5File& file) { file.unlink("/band"); }), "read");
  EXPECT_EQ(said_after([](H5::H5File& file) { file.unlink("/band/hole"); }),
            "this result is damaged: /band/hole is missing; copy it anew, or run its scenario again");
}

TEST(EarlierFormat, OnlyWhatALaterVersionAddedMayBeMissing) {
  EXPECT_EQ(
      said_after([](H5::H5File& file) { file.unlink("/outcome/end/heat_damage"); }),
      "this result is damaged: /outcome/end/heat_damage is missing; copy it anew, or run its scenario again");
  EXPECT_EQ(said_after([](H5::H5File& file) {
              const int version[2] = {1, 1};
              file.openGroup("/").openAttribute("format_version").write(H5::PredType::NATIVE_INT, version);
            }),
            "this result is damaged: /bit/starting_chip_hazard is missing; copy it anew, or run its scenario "
            "again");
}

TEST(EarlierFormat, AWordOfALaterVersionIsNamed) {
  const made_up::Folder folder;
  const std::string path = folder / "run.h5";
  write_result(path, made_up::scenario(3), made_up::plain_outcome(3, 2));
  const auto said = [&](int minor) {
    changed_file::change(path, [&](H5::H5File& file) {
      const int version[2] = {1, minor};
      file.openGroup("/").openAttribute("format_version").write(H5::PredType::NATIVE_INT, version);
      const H5::DataSet ended = file.openDataSet("/outcome/ended_by");
      ended.write(std::string("bit_melted"), ended.getStrType());
    });
    try {
      read_result(path);
    } catch (const base::FileError& error) {
      return error.reason();
    }
    return std::string("read");
  };
  EXPECT_EQ(said(result_format::minor_version),
            "this result is damaged: /outcome/ended_by says 'bit_melted', which this program does not know; "
            "copy it anew, or run its scenario again");
  EXPECT_EQ(
      said(result_format::minor_version + 1),
      "this result is newer than this program: /outcome/ended_by says 'bit_melted', which a newer format "
      "added: use a newer dullcast");
}

}  // namespace
}  // namespace dullcast::storage
