#include <gtest/gtest.h>

#include <set>

#include "engine/input/located_yaml.hpp"
#include "engine/input/reading.hpp"
#include "engine/input/shelf_table.hpp"
#include "engine/input/text_file.hpp"

// scenarios/README.md is the reference of keys: every key there is must stand in it.
namespace dullcast::input {
namespace {

void collect_keys(const YamlValue& value, bool names, std::set<std::string>& keys) {
  for (const auto& entry : value.entries) {
    if (!names) keys.insert(entry.key);
    const bool named = !names && (entry.key == "rocks" || entry.key == "grades" || entry.key == "lots" ||
                                  entry.key == "bodies" || entry.key == "fluids" || entry.key == "bits" ||
                                  entry.key == "cutter_kinds");
    collect_keys(entry.value, named, keys);
  }
  for (const auto& item : value.items) collect_keys(item, false, keys);
}

TEST(KeyReference, NamesEveryKeyOfTheScenariosAndTheLibrary) {
  const std::string reference = read_text_file(testing::scenario_folder() + "/README.md");
  std::set<std::string> keys;
  for (const char* file :
       {"field_of_forty_wells.yaml", "next_field.yaml", "one_shallow_well.yaml", "after_an_inspection.yaml",
        "pump_lost.yaml", "gravel_lens.yaml", "poor_lot.yaml", "cutter_burnt.yaml", "cutter_kept_cool.yaml",
        "rebuilt_bit.yaml", "rebuilt_after_forty_wells.yaml", "ordinary_well.yaml", "wide_well.yaml",
        "ridge_well.yaml", "pilot_hole.yaml"}) {
    std::vector<Warning> warnings;
    const std::string path = testing::scenario_folder() + "/" + file;
    const scenario::Scenario scenario = testing::reader().read(path, {}, warnings);
    for (const std::string& text : {scenario.text, read_text_file(path)}) {
      Problems problems;
      collect_keys(parse_yaml(text, file, problems), false, keys);
    }
  }
  for (const auto& [name, bit] : testing::reader().library().bits) collect_keys(bit, false, keys);
  EXPECT_GT(keys.size(), 150u);
  for (const auto& key : keys) {
    const bool found = reference.find("`" + key + "`") != std::string::npos ||
                       reference.find("." + key + "`") != std::string::npos ||
                       reference.find("{" + key + ":") != std::string::npos ||
                       reference.find(", " + key + ":") != std::string::npos;
    EXPECT_TRUE(found) << key << " is not in scenarios/README.md";
  }
}

TEST(KeyReference, NamesEveryKeyOfARecord) {
  const std::string reference = read_text_file(testing::scenario_folder() + "/README.md");
  const auto begin = reference.find("## Records of bits that came back"),
             end = reference.find("\n## ", begin);
  ASSERT_NE(begin, std::string::npos);
  const std::string section = reference.substr(begin, end - begin);
  for (const std::string& key : record_keys())
    EXPECT_NE(section.find("`" + key + "`"), std::string::npos) << key << " is not in scenarios/README.md";
  EXPECT_NE(section.find("`" + cutter_key(1) + "`"), std::string::npos);
}

TEST(KeyReference, TheUncertainNumbersAreAllThere) {
  const std::string reference = read_text_file(testing::scenario_folder() + "/README.md");
  scenario::Scenario scenario = testing::scenario_of(testing::plain_text());
  scenario::for_each_number(scenario, [&](const std::string& name, scenario::Quantity&) {
    const auto colon = name.rfind(": ");
    const std::string key = colon == std::string::npos ? name : name.substr(colon + 2);
    EXPECT_NE(reference.find("`" + key + "`"), std::string::npos) << key;
  });
}

}  // namespace
}  // namespace dullcast::input
