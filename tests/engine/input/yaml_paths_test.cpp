#include "engine/input/yaml_paths.hpp"

#include <gtest/gtest.h>

namespace dullcast::input {
namespace {

YamlValue tree() {
  Problems problems;
  YamlValue root = parse_yaml(
      "title: a field\n"
      "plan:\n"
      "  - {flow: 60 gpm, speeds: [{at: 80 rpm}, {at: 90 rpm}]}\n"
      "  - {flow: 70 gpm, speeds: []}\n"
      "  - {flow: 80 gpm, speeds: [{at: 95 rpm}]}\n"
      "column:\n"
      "  layers:\n"
      "    - {rock: shale}\n"
      "    - {rock: limestone}\n"
      "none: []\n",
      "field.yaml", problems);
  EXPECT_FALSE(problems.any_error());
  return root;
}

TEST(YamlPaths, StepsAreKeysOfMapsAndNumbersOfItems) {
  const YamlValue root = tree();
  const auto text = [&](const char* path) {
    const YamlValue* found = value_at(root, path);
    return found ? found->text : "nothing";
  };
  EXPECT_EQ(text("title"), "a field");
  EXPECT_EQ(text("plan.0.flow"), "60 gpm");
  EXPECT_EQ(text("plan.2.speeds.0.at"), "95 rpm");
  EXPECT_EQ(text("column.layers.1.rock"), "limestone");
  EXPECT_EQ(text("layers.1.rock"), "limestone") << "short for column.layers";
  ASSERT_NE(value_at(root, "layers"), nullptr);
  EXPECT_EQ(value_at(root, "layers"), value_at(root, "column.layers"));
  EXPECT_TRUE(value_at(root, "none")->is_list());
}

TEST(YamlPaths, NothingWhereNothingStands) {
  const YamlValue root = tree();
  for (const char* path : {"", ".", "flow", "plan.3.flow", "plan.-1.flow", "plan.0x.flow", "plan.+0.flow",
                           "plan..flow", "plan.flow", "plan.0.", "title.0", "title.more", "none.0", ".plan",
                           "plan.99999999999999999999999.flow", "plan.*.flow", "layersome.0"}) {
    EXPECT_EQ(value_at(root, path), nullptr) << path;
  }
}

TEST(YamlPaths, AListOfLayersOfItsOwnIsNotTheColumns) {
  Problems problems;
  const YamlValue root =
      parse_yaml("layers: [{rock: coal}]\ncolumn: {layers: [{rock: shale}]}\n", "x", problems);
  EXPECT_EQ(value_at(root, "layers.0.rock")->text, "coal");
  EXPECT_EQ(value_at(root, "column.layers.0.rock")->text, "shale");
}

TEST(YamlPaths, StarsOpenToEveryItem) {
  const YamlValue root = tree();
  using Paths = std::vector<std::string>;
  EXPECT_EQ(open_stars(root, "plan.*.flow"), (Paths{"plan.0.flow", "plan.1.flow", "plan.2.flow"}));
  EXPECT_EQ(open_stars(root, "plan.*"), (Paths{"plan.0", "plan.1", "plan.2"}));
  EXPECT_EQ(open_stars(root, "layers.*.rock"), (Paths{"column.layers.0.rock", "column.layers.1.rock"}));
  // Stars below stars: items have lists of different lengths.
  EXPECT_EQ(open_stars(root, "plan.*.speeds.*.at"),
            (Paths{"plan.0.speeds.0.at", "plan.0.speeds.1.at", "plan.2.speeds.0.at"}));
  // A path that leads to nothing yet is still a path.
  EXPECT_EQ(open_stars(root, "plan.*.holdback"),
            (Paths{"plan.0.holdback", "plan.1.holdback", "plan.2.holdback"}));
  EXPECT_EQ(open_stars(root, "repeat.holes"), Paths{"repeat.holes"});
  for (const char* path : {"title.*", "none.*", "nowhere.*.x", "column.*.rock"}) {
    EXPECT_TRUE(open_stars(root, path).empty()) << path;
  }
}

}  // namespace
}  // namespace dullcast::input
