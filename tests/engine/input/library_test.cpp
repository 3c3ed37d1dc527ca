#include "engine/input/library.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "engine/input/reading.hpp"
#include "engine/scenario/number_fields.hpp"
#include "models/common/constants.hpp"

namespace dullcast::input {
namespace {

using testing::Messages;

template <class Record>
void expect_complete(const std::string& name, const Record& record) {
  const std::vector<std::string> known(std::begin(scenario::marks),
                                       std::end(scenario::marks) - 1);  // not "given"
  for (const auto& field : scenario::number_fields(record)) {
    const scenario::Quantity& number = record.*field.member;
    const std::string what = name + ": " + field.key;
    EXPECT_LE(number.low, number.central) << what;
    EXPECT_LE(number.central, number.high) << what;
    EXPECT_FALSE(number.source.empty()) << what;
    EXPECT_NE(std::find(known.begin(), known.end(), number.mark), known.end())
        << what << " has mark " << number.mark;
  }
}

TEST(Library, EveryNumberHasSpreadSourceAndMark) {
  const Library& library = testing::reader().library();
  EXPECT_GE(library.rocks.size(), 8u);
  for (const auto& [name, rock] : library.rocks) expect_complete(name, rock);
  for (const auto& [name, grade] : library.grades) expect_complete(name, grade);
  for (const auto& [name, lot] : library.lots) expect_complete(name, lot);
  for (const auto& [name, body] : library.bodies) expect_complete(name, body);
  for (const auto& [name, fluid] : library.fluids) expect_complete(name, fluid);
  expect_complete("models", library.models);
}

TEST(Library, EveryFieldTableCoversItsRecord) {
  // A Quantity added to a record but not to its table would never be read. Records hold Quantities and,
  // before them, words and flags; the size of the rest is what it is without them.
  EXPECT_EQ(scenario::number_fields(scenario::ModelNumbers{}).size() * sizeof(scenario::Quantity),
            sizeof(scenario::ModelNumbers));
  EXPECT_EQ(scenario::number_fields(scenario::GradeRecord{}).size() * sizeof(scenario::Quantity) +
                sizeof(std::string),
            sizeof(scenario::GradeRecord));
  EXPECT_EQ(scenario::number_fields(scenario::LotRecord{}).size() * sizeof(scenario::Quantity) +
                sizeof(std::string),
            sizeof(scenario::LotRecord));
  EXPECT_EQ(scenario::number_fields(scenario::BodyRecord{}).size() * sizeof(scenario::Quantity) +
                sizeof(std::string),
            sizeof(scenario::BodyRecord));
  EXPECT_EQ(scenario::number_fields(scenario::FluidRecord{}).size(),
            (sizeof(scenario::FluidRecord) - sizeof(std::string)) / sizeof(scenario::Quantity));
  EXPECT_EQ(scenario::number_fields(scenario::RockRecord{}).size(),
            (sizeof(scenario::RockRecord) - 2 * sizeof(std::string)) / sizeof(scenario::Quantity));
}

TEST(Library, RocksLieWithinTheHandbookRanges) {
  // ISRM strength grades and CAI classes as tabled in the handbooks named in rocks.yaml, in MPa and 1.
  const auto& rocks = testing::reader().library().rocks;
  struct Range {
    const char* rock;
    double ucs_least, ucs_most, cai_least, cai_most;
  };
  for (const Range& range : {Range{"shale", 10, 60, 0.2, 1}, Range{"limestone", 40, 140, 0.5, 1.5},
                             Range{"sandstone", 20, 80, 1.5, 4}, Range{"granite", 140, 240, 3.5, 5.5},
                             Range{"quartzite", 100, 300, 4, 6}}) {
    const scenario::RockRecord& rock = rocks.at(range.rock);
    // A thousandth of a MPa for the rounding of unit conversion.
    EXPECT_GE(rock.unconfined_strength.low, range.ucs_least * 1e6 - 1e3) << range.rock;
    EXPECT_LE(rock.unconfined_strength.high, range.ucs_most * 1e6 + 1e3) << range.rock;
    EXPECT_GE(rock.cerchar_abrasivity.low, range.cai_least) << range.rock;
    EXPECT_LE(rock.cerchar_abrasivity.high, range.cai_most) << range.rock;
  }
  EXPECT_TRUE(rocks.at("granite").hard_on_cutters);
  EXPECT_TRUE(rocks.at("quartzite").hard_on_cutters);
  EXPECT_FALSE(rocks.at("shale").hard_on_cutters);
}

TEST(Library, DamageTakesLongerAtTheLowerTemperatureWhateverIsDrawn) {
  const scenario::ModelNumbers& models = testing::reader().library().models;
  EXPECT_GT(models.damage_seconds_at_700.low, models.damage_seconds_at_750.high);
}

TEST(Library, StonesStandInTheRocksNamedForThemAndInNoOther) {
  for (const auto& [name, rock] : testing::reader().library().rocks) {
    const bool stony = name == "gravel" || name == "gravelly_sand" || name == "cherty_limestone";
    EXPECT_EQ(rock.inclusion_share.high > 0.0, stony) << name;
    if (!stony) continue;
    EXPECT_GT(rock.inclusion_share.low, 0.0) << name;
    EXPECT_GT(rock.inclusion_abrasivity.low, rock.cerchar_abrasivity.low) << name << ": stones scratch more";
    EXPECT_GT(rock.inclusion_size.low, 2e-3) << name;  // gravel starts at 2 mm (ISO 14688-1)
    EXPECT_LE(rock.inclusion_size.high, 0.1) << name;
    // Stones are as strong as the strongest rocks and stronger than what holds them (ISRM grades R5, R6).
    EXPECT_GE(rock.inclusion_strength.low, 100e6) << name;
    EXPECT_GT(rock.inclusion_strength.low, 1.5 * rock.unconfined_strength.central) << name;
  }
}

TEST(Library, ClayBallsMostAndCleanRockHardly) {
  // Common practice: clay, then shale and marl, ball bits; clean sandstone, limestone and granite do not.
  const auto& rocks = testing::reader().library().rocks;
  const auto sticks = [&](const char* rock) { return rocks.at(rock).stickiness.central; };
  EXPECT_GT(sticks("clay"), sticks("shale"));
  EXPECT_GT(sticks("shale"), sticks("siltstone"));
  EXPECT_GT(sticks("marl"), sticks("siltstone"));
  for (const char* clean : {"sandstone", "limestone", "granite", "quartzite", "gravel"}) {
    EXPECT_LE(sticks(clean), 0.1) << clean;
  }
}

TEST(Library, LotsGradesAndBodiesAreOrderedAsPracticeHasThem) {
  const Library& library = testing::reader().library();
  const auto& sound = library.lots.at("sound");
  const auto& mixed = library.lots.at("mixed");
  const auto& poor = library.lots.at("poor");
  for (const auto member : {&scenario::LotRecord::edge_share, &scenario::LotRecord::bond_share,
                            &scenario::LotRecord::braze_share}) {
    EXPECT_EQ((sound.*member).central, 1.0);
    EXPECT_GT((sound.*member).central, (mixed.*member).central);
    EXPECT_GT((mixed.*member).central, (poor.*member).central);
  }
  EXPECT_LT(sound.strength_spread.central, mixed.strength_spread.central);
  EXPECT_LT(mixed.strength_spread.central, poor.strength_spread.central);
  EXPECT_LT(library.grades.at("economy").edge_strength.central,
            library.grades.at("standard").edge_strength.central);
  EXPECT_LT(library.grades.at("standard").edge_strength.central,
            library.grades.at("premium").edge_strength.central);
  // Soft low-carbide matrix erodes several times faster than good matrix or hardened steel (common practice).
  EXPECT_EQ(library.bodies.at("steel").erosion_resistance.central, 1.0);
  for (const char* good : {"steel", "matrix"}) {
    EXPECT_GE(library.bodies.at(good).erosion_resistance.central,
              3.0 * library.bodies.at("soft_matrix").erosion_resistance.central);
  }
}

TEST(Library, BrazeSoftensBelowItsSolidusWhateverIsDrawn) {
  // Solidus of silver brazing alloys: 607 degC (BAg-1) to 690 degC, AWS A5.8, from memory.
  const scenario::ModelNumbers& models = testing::reader().library().models;
  EXPECT_LT(models.braze_softening.high, models.braze_solidus.low);
  EXPECT_GT(models.braze_solidus.low, 600.0 + 273.15);
  EXPECT_LT(models.braze_solidus.high, 700.0 + 273.15);
}

TEST(Library, ImpedanceIsThatOfHardRock) {
  // Density times P-wave speed of granite, 2600 to 2700 kg/m3 and 4500 to 6000 m/s (handbook ranges).
  const double impedance = testing::reader().library().models.impact_impedance.central;
  EXPECT_GE(impedance, 2600.0 * 4500.0);
  EXPECT_LE(impedance, 2700.0 * 6000.0);
}

TEST(Library, PortsSpendLittleOfAWaterWellPumpsPressure) {
  // Nozzle equation, dp = rho Q^2 / (2 C_d^2 A^2); water-well pumps give under 10 bar (common practice).
  struct Flow {
    const char* bit;
    double gallons_a_minute;
  };
  for (const Flow& flow :
       {Flow{"four_blade_7_7_8", 70}, Flow{"five_blade_8_1_2", 90}, Flow{"three_blade_3_3_4", 25}}) {
    const auto scenario =
        testing::scenario_of(testing::with(testing::plain_text(), "four_blade_7_7_8", flow.bit));
    const double velocity = flow.gallons_a_minute * 3.785411784e-3 / 60.0 /
                            (scenario.numbers.port_discharge.central * scenario.bit.build.port_area);
    EXPECT_GT(0.5 * 998.0 * velocity * velocity, 0.3e5) << flow.bit;
    EXPECT_LT(0.5 * 998.0 * velocity * velocity, 3e5) << flow.bit;
  }
}

TEST(Library, EveryBitCanBeLaidOut) {
  for (const auto& [name, value] : testing::reader().library().bits) {
    const auto text = testing::with(testing::plain_text(), "four_blade_7_7_8", name);
    EXPECT_EQ(testing::errors_of(text), Messages{}) << name;
  }
}

/// A copy of the library with one file changed.
class ChangedLibrary : public ::testing::Test {
 protected:
  void SetUp() override {
    folder_ = std::filesystem::path(DULLCAST_BINARY_DIR) /
              ("library_" + std::string(::testing::UnitTest::GetInstance()->current_test_info()->name()));
    std::filesystem::remove_all(folder_);
    std::filesystem::copy(testing::library_folder(), folder_);
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }
  void write(const char* file, const std::string& text) { std::ofstream(folder_ / file) << text; }
  Messages errors() const {
    const UnitParser units;
    try {
      read_library(folder_.string(), units);
    } catch (const ScenarioErrors& error) {
      return error.messages();
    }
    return {};
  }
  std::filesystem::path folder_;
};

TEST_F(ChangedLibrary, ANumberWithoutSourceOrMarkIsRefused) {
  write(
      "bodies.yaml",
      "steel:\n"
      "  conductivity: {low: 40 W/(m K), central: 42 W/(m K), high: 45 W/(m K), mark: hb}\n"
      "  density: 7850 kg/m3\n"
      "  heat_capacity: {low: 480 J/(kg K), central: 473 J/(kg K), high: 490 J/(kg K), mark: hb, source: x}\n"
      "  volume_share: {low: 2, central: 3, high: 4, mark: guess, source: x}\n"
      "  erosion_resistance: {low: 1, central: 1, high: 1, mark: asm, source: x}\n"
      "  rubbing_resistance: {low: 1, central: 1, high: 1, mark: asm, source: x}\n"
      "  strength: {low: 600 MPa, central: 750 MPa, high: 900 MPa, mark: mem, source: x}\n");
  const std::string file = (folder_ / "bodies.yaml").string();
  EXPECT_EQ(
      errors(),
      (Messages{
          file +
              ":2:3: steel.strength_spread: is missing; write {low: , central: , high: , source: , mark: } "
              "with values such as 0.5 or 50 %",
          file + ":2:17: steel.conductivity.source: is missing; name the paper, handbook or reason behind "
                 "the number",
          file + ":3:12: steel.density: is \"7850 kg/m3\"; a library number is {low: , central: , high: , "
                 "source: , mark: }",
          file + ":4:47: steel.heat_capacity.central: does not lie between low and high; write low <= "
                 "central <= high",
          file + ":5:53: steel.volume_share.mark: is \"guess\"; write pub, hb, cp, mem, fit, asm or "
                 "given"}));
}

TEST_F(ChangedLibrary, AMissingFileIsNamed) {
  std::filesystem::remove(folder_ / "rocks.yaml");
  EXPECT_EQ(errors(), Messages{(folder_ / "rocks.yaml").string() +
                               ": cannot be read; a library folder holds rocks.yaml, grades.yaml, lots.yaml, "
                               "bodies.yaml, fluids.yaml, bits.yaml and models.yaml"});
}

// A flaw of length a in a surface breaks at K_IC/(1.12 sqrt(pi a)) [hb: Tada, Paris & Irwin, Stress Analysis
// of Cracks Handbook]; sintered diamond has about 13 MPa sqrt(m) (Lin, Hood & Cooper, J. Mater. Sci. 29,
// 1994, 4750 [pub]). The grades' edges are as strong as flaws of one fine to middling grain allow, and such
// flaws lie within the edge's radius, over which the model takes its stress.
TEST(Library, EdgesAreAsStrongAsFlawsOfAGrainAllow) {
  const Library& library = testing::reader().library();
  for (const auto& [name, grade] : library.grades) {
    for (const double strength :
         {grade.edge_strength.low, grade.edge_strength.central, grade.edge_strength.high}) {
      const double root = 13e6 / (1.12 * strength);
      const double flaw = root * root / pi;
      EXPECT_GT(flaw, 1e-6) << name;
      EXPECT_LT(flaw, 15e-6) << name;
      EXPECT_LT(flaw, library.models.edge_radius.central) << name;
    }
  }
}

}  // namespace
}  // namespace dullcast::input
