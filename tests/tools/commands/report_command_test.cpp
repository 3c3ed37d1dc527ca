#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <stdexcept>

#include "engine/storage/sample_shop.hpp"
#include "engine/storage/shop_file.hpp"
#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::Scratch;
using testing::text_of;

/// The value that a page carries under an id.
nlohmann::json carried(const std::string& html, const std::string& id) {
  const std::string begin = "<script type=\"application/json\" id=\"" + id + "\">";
  const std::size_t from = html.find(begin);
  if (from == std::string::npos) throw std::runtime_error("the page carries no " + id);
  const std::size_t to = html.find("</script>", from);
  return nlohmann::json::parse(html.substr(from + begin.size(), to - from - begin.size()));
}

TEST(ReportCommand, AResultBecomesOnePageThatFetchesNothing) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", testing::small_well);
  const std::string result = (scratch / "well.h5").string(), page = (scratch / "well.html").string();
  ASSERT_EQ(say("run --central-only " + well + " -o " + result).code, 0);
  const Said said = say("report " + result + " -o " + page + " --units si");
  ASSERT_EQ(said.code, 0) << said.err;
  EXPECT_TRUE(has(said.out, "Written to " + page));
  const std::string html = text_of(page);
  EXPECT_TRUE(has(html, "default-src 'none'"));
  for (const char* fetched : {"src=\"http", "href=\"http", "url(http", "@import"})
    EXPECT_FALSE(has(html, fetched)) << fetched;
  const nlohmann::json runs = carried(html, "runs-data");
  ASSERT_EQ(runs.size(), 1u);
  EXPECT_EQ(runs[0].at("title"), "a small well");
  EXPECT_EQ(runs[0].at("units"), "si");
  EXPECT_NEAR(runs[0].at("rows").at("depth").back().get<double>(), 12.0, 1e-3);
  EXPECT_TRUE(runs[0].at("band").empty());
  EXPECT_EQ(carried(html, "sweeps-data").size(), 0u);
}

TEST(ReportCommand, ScenariosAreDrilledAndSetSideBySide) {
  const Scratch scratch;
  const std::string one = scratch.write("one.yaml", testing::small_well);
  const std::string two = scratch.write("two.yaml", testing::small_well);
  const std::string page = (scratch / "both.html").string();
  const Said said = say("report --central-only " + one + " " + two + " --windows -o " + page);
  ASSERT_EQ(said.code, 0) << said.err;
  const nlohmann::json runs = carried(text_of(page), "runs-data");
  ASSERT_EQ(runs.size(), 2u);
  EXPECT_EQ(runs[1].at("name"), two);
  // Two rocks, two windows, each with a cell for every weight and speed.
  ASSERT_EQ(runs[0].at("windows").size(), 2u);
  const nlohmann::json& window = runs[0].at("windows")[0];
  EXPECT_EQ(window.at("cells").size(), window.at("weights").size() * window.at("rotary_speeds").size());
}

TEST(ReportCommand, ASweepBecomesAPageOfFindings) {
  const Scratch scratch;
  scratch.write("well.yaml", testing::small_well);
  const std::string plan =
      scratch.write("plan.yaml", testing::small_plan + std::string("histories: {every: 1, rows: 20}\n"));
  const std::string sweep = (scratch / "sweep.h5").string(), page = (scratch / "sweep.html").string();
  ASSERT_EQ(say("sweep " + plan + " -o " + sweep).code, 0);
  const Said said = say("report " + sweep + " -o " + page);
  ASSERT_EQ(said.code, 0) << said.err;
  const nlohmann::json sweeps = carried(text_of(page), "sweeps-data");
  ASSERT_EQ(sweeps.size(), 1u);
  EXPECT_EQ(sweeps[0].at("points"), 2);
  EXPECT_EQ(sweeps[0].at("draws"), 3);
  EXPECT_EQ(sweeps[0].at("course").at("courses"), 6);
}

TEST(ReportCommand, AShopsOutlookBecomesAPage) {
  const Scratch scratch;
  const std::string shop = (scratch / "shop.h5").string(), page = (scratch / "shop.html").string();
  storage::write_shop(shop, storage::sample::shop());
  const Said said = say("report " + shop + " -o " + page);
  ASSERT_EQ(said.code, 0) << said.err;
  const nlohmann::json shops = carried(text_of(page), "shops-data");
  ASSERT_EQ(shops.size(), 1u);
  EXPECT_EQ(shops[0].at("title"), "A shop in Lower Meadow, spring and summer");
  EXPECT_EQ(shops[0].at("bits").size(), 12u);
  EXPECT_EQ(carried(text_of(page), "runs-data").size(), 0u);
}

TEST(ReportCommand, AShopInAZoneThatTheMachineDoesNotKnowIsToldWithItsFile) {
  const Scratch scratch;
  storage::ShopOutlook outlook = storage::sample::shop();
  outlook.time_zone = "Nowhere/At_all";
  const std::string shop = (scratch / "shop.h5").string();
  storage::write_shop(shop, outlook);
  const Said said = say("report " + shop + " -o " + (scratch / "shop.html").string());
  EXPECT_NE(said.code, 0);
  EXPECT_TRUE(has(said.err, shop)) << said.err;
  EXPECT_TRUE(has(said.err, "Nowhere/At_all")) << said.err;
}

TEST(ReportCommand, RefusesWhatItCannotReadOrMayNotWrite) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", testing::small_well);
  EXPECT_EQ(say("report").code, 2);
  EXPECT_EQ(say("report " + (scratch / "not_there.h5").string()).code, 4);
  const Said over = say("report --central-only " + well + " -o " + well + " --replace");
  EXPECT_EQ(over.code, 4) << over.out;
  EXPECT_EQ(text_of(well), testing::small_well);
  const std::string page = scratch.write("page.html", "mine");
  const Said there = say("report --central-only " + well + " -o " + page);
  EXPECT_EQ(there.code, 4);
  EXPECT_TRUE(has(there.err, "--replace")) << there.err;
  EXPECT_EQ(text_of(page), "mine");
}

TEST(CardCommand, ACardTellsTheLeastFlowOfEveryRock) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", testing::small_well);
  const std::string page = (scratch / "card.html").string();
  const Said said = say("card --central-only " + well + " -o " + page);
  ASSERT_EQ(said.code, 0) << said.err;
  const nlohmann::json card = carried(text_of(page), "card-data");
  ASSERT_EQ(card.at("rows").size(), 2u);
  EXPECT_EQ(card.at("rows")[0].at("rock"), "shale");
  EXPECT_GT(card.at("rows")[0].at("least_flow").get<double>(), 0.0);
  EXPECT_FALSE(card.at("cautions").empty());
}

TEST(CardCommand, ASweepHasNoCard) {
  const Scratch scratch;
  scratch.write("well.yaml", testing::small_well);
  const std::string plan = scratch.write("plan.yaml", testing::small_plan);
  const std::string sweep = (scratch / "sweep.h5").string();
  ASSERT_EQ(say("sweep " + plan + " -o " + sweep).code, 0);
  const Said said = say("card " + sweep + " -o " + (scratch / "card.html").string());
  EXPECT_EQ(said.code, 4);
  EXPECT_TRUE(has(said.err, "dullcast sweep")) << said.err;
}

}  // namespace
}  // namespace dullcast::commands
