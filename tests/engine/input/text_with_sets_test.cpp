#include "engine/input/text_with_sets.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "engine/input/problems.hpp"
#include "engine/input/scenario_reader.hpp"
#include "engine/input/scenario_writer.hpp"

namespace dullcast::input {
namespace {

TEST(TextWithSets, KeepsAllElseByteForByte) {
  const std::string text =
      "# ours\nbit:\n  library: eight_inch   # the usual one\n  grade: \"usual\"\nplan:\n- {weight: 6 klbf, "
      "flow: 60 gal/min}\n"
      "- weight: '7 klbf'  # less in gravel\n  rotary_speed: 90 rpm\n";
  EXPECT_EQ(
      text_with_sets(text, "s.yaml", {"plan.1.weight=8 klbf", "plan.0.flow=55 gal/min", "bit.grade=premium"}),
      "# ours\nbit:\n  library: eight_inch   # the usual one\n  grade: premium\nplan:\n- {weight: 6 klbf, "
      "flow: 55 gal/min}\n"
      "- weight: 8 klbf  # less in gravel\n  rotary_speed: 90 rpm\n");
  EXPECT_EQ(text_with_sets(text, "s.yaml", {}), text);
  EXPECT_EQ(text_with_sets(text, "s.yaml", {"bit.grade=usual"}), text) << "what says the same already";
}

TEST(TextWithSets, NewKeysStandBesideTheirs) {
  const std::string text = "bit:\n  grade: usual\nplan:\n  - {flow: 60 gal/min}\n";
  EXPECT_EQ(text_with_sets(text, "s.yaml", {"bit.lot=autumn", "plan.0.weight=6 klbf", "repeat.holes=4"}),
            "bit:\n  lot: autumn\n  grade: usual\nplan:\n  - {weight: 6 klbf, flow: 60 gal/min}\nrepeat:\n  "
            "holes: 4\n");
  EXPECT_EQ(text_with_sets("a: 1", "s.yaml", {"b=2"}), "a: 1\nb: 2\n");
  EXPECT_EQ(text_with_sets("bit: {like: ours}\n", "s.yaml",
                           {"bit.cutter.leach_depth=0.2 mm", "bit.cutter.bevel_width=0.4 mm"}),
            "bit: {cutter: {bevel_width: 0.4 mm, leach_depth: 0.2 mm}, like: ours}\n");
}

TEST(TextWithSets, ATextThatCannotTakeItIsRefused) {
  EXPECT_THROW(text_with_sets("name: >\n  two\n  lines\n", "s.yaml", {"name=one"}), ScenarioErrors);
  EXPECT_THROW(text_with_sets("a: 1\n", "s.yaml", {"a"}), ScenarioErrors);
  EXPECT_THROW(text_with_sets("a: [1\n", "s.yaml", {"a=2"}), ScenarioErrors);
}

TEST(TextWithSets, ReadsAsTheScenarioWithThemSet) {
  const std::string folder = std::string(DULLCAST_SOURCE_DIR) + "/scenarios";
  const ScenarioReader reader(folder + "/library");
  int scenarios = 0;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) {
    if (entry.path().extension() != ".yaml") continue;
    std::ifstream in(entry.path());
    std::ostringstream text;
    text << in.rdbuf();
    if (text.str().find("\nsweep:") != std::string::npos || text.str().find("plan:") == std::string::npos)
      continue;
    const std::vector<std::string> sets = {"plan.0.rotary_speed=77.5 rpm", "plan.0.flow=77 gal/min",
                                           "stepping.output_every=3 ft"};
    std::vector<Warning> warnings;
    const std::string file = entry.path().string();
    const std::string changed = text_with_sets(text.str(), file, sets);
    EXPECT_EQ(resolved_text(reader.read_text(changed, file, {}, warnings)),
              resolved_text(reader.read_text(text.str(), file, sets, warnings)))
        << file;
    EXPECT_NE(changed, text.str());
    ++scenarios;
  }
  EXPECT_GT(scenarios, 3);
}

}  // namespace
}  // namespace dullcast::input
