#include "engine/pages/watch_words.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <set>

#include "support/short_scenario.hpp"

namespace dullcast::pages {
namespace {

using analysis::Concern;

constexpr Concern every_concern[] = {
    Concern::heat,       Concern::wear,    Concern::chips,    Concern::retention, Concern::progress,
    Concern::standstill, Concern::packing, Concern::cleaning, Concern::balling,   Concern::steam};

/// A cool layer about which these are said.
analysis::LayerSuitability layer_with(const std::vector<Concern>& concerns) {
  analysis::LayerSuitability layer;
  layer.ground.layer = 0;
  layer.ground.hottest_flat = 300.0;
  for (const Concern concern : concerns)
    layer.findings.push_back({concern, analysis::Verdict::with_care, 1.0, 1.0});
  return layer;
}

nlohmann::json words_of(const analysis::LayerSuitability& layer, const std::string& note = {}) {
  scenario::Scenario s = testing::short_scenario();
  s.column.layers.front().rock.note = note;
  return watch_words(layer, s);
}

TEST(WatchWords, EveryConcernHasItsOwnAndLostFlowIsSaidOnce) {
  std::set<std::string> different;
  for (const Concern concern : every_concern) {
    const nlohmann::json words = words_of(layer_with({concern}));
    ASSERT_EQ(words.size(), 1u);
    different.insert(words.front().dump());
  }
  // Heat and steam both come of too little flow.
  EXPECT_EQ(different.size(), std::size(every_concern) - 1);
  EXPECT_EQ(words_of(layer_with({Concern::heat, Concern::steam, Concern::balling})).size(), 2u);
  EXPECT_TRUE(words_of(layer_with({})).empty());
}

TEST(WatchWords, HotCuttersComeFirstAndTheRocksNoteLast) {
  analysis::LayerSuitability layer = layer_with({Concern::chips});
  layer.ground.hottest_flat = testing::short_scenario().numbers.acceleration_temperature.central - 49.0;
  const nlohmann::json words = words_of(layer, "ends in boulders");
  ASSERT_EQ(words.size(), 3u);
  EXPECT_NE(words[0].dump().find(": hold the flow"), std::string::npos) << words[0];
  EXPECT_NE(words[1].dump().find("chips edges"), std::string::npos) << words[1];
  EXPECT_NE(words[2].dump().find("ends in boulders"), std::string::npos) << words[2];
  layer.ground.hottest_flat -= 2.0;
  EXPECT_EQ(words_of(layer, "ends in boulders").size(), 2u);
}

}  // namespace
}  // namespace dullcast::pages
