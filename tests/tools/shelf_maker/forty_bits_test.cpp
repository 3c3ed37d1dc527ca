#include <gtest/gtest.h>

#include <map>
#include <set>

#include "engine/input/shelf_reader.hpp"
#include "tools/shelf_maker/bits_found.hpp"

// The invented shop: what its forty bits did, and that its findings follow what was planted.
namespace dullcast::shelf_maker {
namespace {

constexpr unsigned long shipped_seed = 11;

const input::ScenarioReader& reader() {
  static const input::ScenarioReader instance(std::string(DULLCAST_SOURCE_DIR) + "/scenarios/library");
  return instance;
}

TEST(FortyBits, DrillSevenKindsOfGroundSoThatRocksCanBeToldApart) {
  const auto bits = forty_bits(shipped_seed);
  ASSERT_EQ(bits.size(), 40u);
  std::map<std::string, int> rocks, lots, scenarios;
  std::set<std::string> names;
  for (const BitDrilled& bit : bits) {
    EXPECT_GE(bit.holes, 3) << bit.name;
    EXPECT_LE(bit.holes, 12) << bit.name;
    for (const RockMetres& each : bit.ground) {
      EXPECT_GT(each.metres, 0) << bit.name;
      ++rocks[each.rock];
    }
    ++lots[bit.lot];
    ++scenarios[bit.scenario];
    names.insert(bit.name + bit.day);
  }
  EXPECT_EQ(names.size(), 40u);
  EXPECT_EQ(rocks.size(), 8u);
  for (const auto& [rock, count] : rocks) EXPECT_GE(count, 5) << rock;
  EXPECT_EQ(scenarios.size(), 2u);
  EXPECT_GE(lots["spring"], 10);
  EXPECT_GE(lots["autumn"], 10);
  EXPECT_GE(lots["poor"], 3);
}

TEST(FortyBits, TheShippedShelfSaysWhatTheyDid) {
  std::vector<input::Warning> warnings;
  const auto shelf = input::read_shelf(
      std::string(DULLCAST_SOURCE_DIR) + "/scenarios/shelf_of_forty_bits.csv", reader(), warnings);
  EXPECT_TRUE(warnings.empty());
  const auto bits = forty_bits(shipped_seed);
  ASSERT_EQ(shelf.size(), bits.size());
  int gone = 0, chipped = 0, at_least = 0, graded_alone = 0, measured = 0;
  for (std::size_t k = 0; k < bits.size(); ++k) {
    const scenario::InspectedBit& found = shelf[k].found;
    EXPECT_EQ(found.bit, bits[k].name);
    EXPECT_EQ(found.inspected, bits[k].day);
    EXPECT_EQ(found.lot, bits[k].lot);
    EXPECT_EQ(found.holes, bits[k].holes);
    ASSERT_EQ(found.drilled.size(), bits[k].ground.size());
    for (std::size_t i = 0; i < found.drilled.size(); ++i) {
      EXPECT_EQ(found.drilled[i].rock, bits[k].ground[i].rock);
      EXPECT_EQ(found.drilled[i].length, bits[k].ground[i].metres);
    }
    graded_alone += found.cutters.empty();
    measured += !found.cutters.empty();
    for (const scenario::CutterSeen& seen : found.cutters) {
      gone += seen.lost || seen.table_gone;
      chipped += seen.chipped;
      at_least += seen.at_least;
    }
  }
  EXPECT_EQ(graded_alone, 14);
  EXPECT_EQ(measured, 26);
  EXPECT_GT(gone, 0);
  EXPECT_GT(chipped, 0);
  EXPECT_GT(at_least, 0);
}

/// Mean worn height that was read on cutters which wear alone has worn, tenths of a millimetre.
double mean_reading(const BitFound& found) {
  double sum = 0.0, count = 0.0;
  for (const std::string& text : found.cutters) {
    if (text.empty() || !(text[0] >= '0' && text[0] <= '9')) continue;
    sum += std::stod(text);
    count += 1.0;
  }
  return count > 0.0 ? sum / count : 0.0;
}

TEST(FortyBits, FindingsFollowWhatIsPlanted) {
  std::vector<input::Warning> warnings;
  const scenario::Scenario run =
      input::read_shelf_text("bit,scenario,holes,drilled,lost\nA,ordinary_well.yaml,4,sandstone 240 m,0\n",
                             std::string(DULLCAST_SOURCE_DIR) + "/scenarios/one.csv", reader(), warnings)
          .front()
          .run;
  Planted nothing;
  nothing.abrasion_factor = nothing.odd_rock_factor = 1.0;
  nothing.wear_scatter = nothing.calliper_error = 0.0;
  Planted rock = nothing, coefficient = nothing, both_noisy;
  rock.odd_rock_factor = 2.0;
  coefficient.abrasion_factor = 2.0;
  const double plain = mean_reading(drill_and_inspect(run, 1, 5, nothing));
  EXPECT_GT(plain, 0.05);
  EXPECT_GT(mean_reading(drill_and_inspect(run, 1, 5, rock)), 1.2 * plain);
  EXPECT_GT(mean_reading(drill_and_inspect(run, 1, 5, coefficient)), 1.7 * plain);
  EXPECT_EQ(drill_and_inspect(run, 1, 5, both_noisy).cutters,
            drill_and_inspect(run, 1, 5, both_noisy).cutters);
  EXPECT_NE(drill_and_inspect(run, 1, 5, both_noisy).cutters,
            drill_and_inspect(run, 1, 6, both_noisy).cutters);
  EXPECT_TRUE(drill_and_inspect(run, 0, 5, nothing).cutters.empty()) << "graded alone";
}

}  // namespace
}  // namespace dullcast::shelf_maker
