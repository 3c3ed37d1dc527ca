#include "engine/scenario/number_ranges.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <regex>

#include "engine/input/numbers_read.hpp"
#include "engine/input/reading.hpp"
#include "engine/input/text_file.hpp"
#include "engine/scenario/number_fields.hpp"

// What a number may be: its words say what is taken, and what no bit, rock or plan can have is refused in
// place.
namespace dullcast::input {
namespace {

using testing::errors_of;
using testing::Messages;
using testing::plain_text;

struct End {
  std::string text;  // "100 GPa"
  double bound;      // SI
};

/// The ends that a range's words name, as somebody would write them.
std::vector<End> ends_in_words(const base::Range& range, const base::Dimension& wanted) {
  static const std::string number = R"((-?[0-9][0-9.]*(?:e-?[0-9]+)?))";
  static const std::string unit = R"(([A-Za-z][A-Za-z0-9]*(?:/(?:\([^)]*\)|[A-Za-z0-9]+))?|1/[mK])?)";
  static const std::regex from_to("from " + number + " ?" + unit + R"((?: \([^)]*\))? to )" + number + " ?" +
                                  unit + ".*");
  static const std::regex up_to(".*up to " + number + " ?" + unit + ".*");
  const bool plain = wanted.rule == base::UnitRule::number;
  const std::string words = range.words;
  std::smatch match;
  if (std::regex_match(words, match, from_to)) {
    const std::string last = match[4].str(), first = match[2].str().empty() ? last : match[2].str();
    return {{match[1].str() + (plain ? "" : " " + first), range.least},
            {match[3].str() + (plain ? "" : " " + last), range.most}};
  }
  if (std::regex_match(words, match, up_to))
    return {{match[1].str() + (plain ? "" : " " + match[2].str()), range.most}};
  return {};
}

/// Every number that a reader of scenarios knows, by its key.
std::multimap<std::string, KeyAsked> numbers_asked() {
  ScenarioReader reader(testing::library_folder());
  KeysAsked keys("well.yaml");
  reader.tell_keys(&keys);
  std::vector<Warning> warnings;
  const std::string bit =
      "bit: {diameter: 200 mm, cutter: {size: 1613}, ports: {count: 4, diameter: 10 mm}, "
      "cutters: [{radius: 92 mm, azimuth: 0 deg, back_rake: 15 deg}]}";
  for (const std::string& text :
       {testing::with(plain_text(), "bit: {like: four_blade_7_7_8}", bit), std::string(plain_text())}) {
    try {
      reader.read_text(text, "well.yaml",
                       {"upsets=[{from: 1 m, lasts: 1 s, pump: off}]", "other_method={}", "pump={}",
                        "fluid={name: water}", "bit.blades={cutters_per_blade: [1]}"},
                       warnings);
    } catch (const ScenarioErrors&) {
      // What is missing, or does not go together, is asked for all the same.
    }
  }
  std::multimap<std::string, KeyAsked> numbers;
  for (const auto& [path, asked] : keys.all()) {
    for (const KeyAsked& one : asked) {
      if (one.kind == AskedFor::number) numbers.emplace(path, one);
    }
  }
  const auto add = [&](const auto& record) {
    for (const auto& field : scenario::number_fields(record))
      numbers.emplace(field.key, KeyAsked{AskedFor::uncertain_number, field.wanted, field.range});
  };
  add(scenario::RockRecord{});
  add(scenario::GradeRecord{});
  add(scenario::LotRecord{});
  add(scenario::BodyRecord{});
  add(scenario::FluidRecord{});
  add(scenario::ModelNumbers{});
  return numbers;
}

TEST(NumberRanges, TheEndsThatTheirWordsNameAreTaken) {
  const UnitParser units;
  int ends = 0;
  for (const auto& [path, number] : numbers_asked()) {
    if (number.wanted->rule == base::UnitRule::money) continue;  // of any currency, so told without one
    for (const End& end : ends_in_words(number.range, *number.wanted)) {
      double value = 0.0;
      EXPECT_NO_THROW(value = units.parse(end.text, *number.wanted)) << path << ": " << number.range.words;
      EXPECT_TRUE(within(number.range, value)) << path << ": " << number.range.words;
      // Nor is much more taken than they say: words are round, by 2 % at most.
      EXPECT_NEAR(value, end.bound, 0.02 * std::abs(end.bound)) << path << ": " << number.range.words;
      ++ends;
    }
  }
  EXPECT_GT(ends, 250);
}

TEST(NumberRanges, OfRecordsStandOnThePageOfScenarios) {
  const std::string page = read_text_file(testing::scenario_folder() + "/README.md");
  for (const auto& [path, number] : numbers_asked()) {
    if (number.kind != AskedFor::uncertain_number) continue;
    const std::string row = std::string("\n| ") + number.range.words + " | ";
    bool there = false;
    for (auto at = page.find(row); at != std::string::npos; at = page.find(row, at + 1)) {
      const std::string line = page.substr(at + row.size(), page.find('\n', at + 1) - at - row.size());
      there = there || line.find("`" + path + "`") != std::string::npos;
    }
    EXPECT_TRUE(there) << path << ": " << number.range.words;
  }
}

TEST(NumberRanges, NoNumberOfARecordIsOpen) {
  for (const auto& [path, number] : numbers_asked()) {
    if (number.kind != AskedFor::uncertain_number) continue;
    EXPECT_LT(number.range.most, 1e20) << path;
    EXPECT_TRUE(number.range.least_itself) << path << ": " << number.range.words;
  }
}

TEST(NumberRanges, WhatNothingCanHaveIsRefusedInItsPlace) {
  EXPECT_EQ(
      errors_of(plain_text(), {"bodies.steel.rubbing_resistance=1e-300"}),
      Messages{"--set bodies.steel.rubbing_resistance: bodies.steel.rubbing_resistance: \"1e-300\" is out "
               "of range; it must be from 1e-6 to 1e6"});
  EXPECT_EQ(
      errors_of(
          testing::with(plain_text(), "thickness: 50 ft", "thickness: 50 ft, unconfined_strength: 1 Pa")),
      Messages{"well.yaml:8:60: column.layers.0.unconfined_strength: \"1 Pa\" is out of range; it must be "
               "from 10 Pa to 100 GPa; rocks of the library have 0.2 to 300 MPa"});
  const struct {
    const char *set, *says;
  } absurd[] = {
      {"models.edge_radius=1 nm", "it must be from 10 nm to 1 mm"},
      {"bit.cutter.table_thickness=1 nm", "it must be from 0.01 to 100 mm"},
      {"bit.blades.exposure=1 nm", "it must be from 0.01 to 100 mm"},
      {"bit.blade={thickness: 1 nm}", "it must be from 0.1 mm to 1 m"},
      {"bit.ports={count: 4, diameter: 1 nm}", "it must be from 0.1 mm to 1 m"},
      {"bit.junk_slot_share=1e-9", "leaves the fluid hardly any way out"},
      {"plan.0.rotary_speed=1e6 rpm", "it must be from 0.01 to 6000 rpm"},
      {"plan.0.rotary_speed=1e-300 rpm", "it must be from 0.01 to 6000 rpm"},
      {"plan.0.feed_limit=1e-300 m/s", "it must be from 0.1 mm/h to 1 m/s"},
      {"weight_limit=1e299 N", "it must be above 0, up to 10 MN"},
      {"layers.0.density=1e299 kg/m3", "it must be from 10 to 30000 kg/m3"},
      {"layers.0.heat_capacity=1e-300 J/(kg K)", "it must be from 10 to 30000 J/(kg K)"},
      {"fluids.water.density=1e-300 kg/m3", "it must be from 0.01 to 30000 kg/m3"},
      {"models.slot_height=1e-12", "it must be from 0.001 to 10 bit diameters"},
      {"models.spreading_edge_factor=1e-12", "it must be from 0.1 to 10"},
      {"models.erosion_coefficient=1e12 m/s", "it must be 0 or more, up to 1 m/s"},
      {"other_method={rate_of_penetration: 1e-300 m/s}", "it must be from 0.1 mm/h to 1 m/s"},
  };
  for (const auto& one : absurd) {
    const Messages errors = errors_of(plain_text(), {one.set});
    ASSERT_FALSE(errors.empty()) << one.set;
    EXPECT_NE(errors.front().find(one.says), std::string::npos) << errors.front();
  }
}

TEST(NumberRanges, StonesAreNoGrains) {
  const std::string stones = "layers.0.inclusion_share=0.2", strong = "layers.0.inclusion_strength=150 MPa";
  EXPECT_TRUE(errors_of(plain_text(), {stones, strong, "layers.0.inclusion_size=1 mm"}).empty());
  const Messages errors = errors_of(plain_text(), {stones, strong, "layers.0.inclusion_size=1 nm"});
  ASSERT_EQ(errors.size(), 1u);
  EXPECT_NE(errors.front().find("inclusion_size: is less than 0.1 mm"), std::string::npos) << errors.front();
}

TEST(NumberRanges, SillySettingsAreStillTaken) {
  for (const char* set :
       {"plan.0.rotary_speed=1000 rpm", "plan.0.weight_on_bit=1 MN", "plan.0.flow=0 gal/min",
        "grades.standard.wear_resistance=0.01", "layers.0.unconfined_strength=1 kPa",
        "models.abrasion_coefficient=0 m2/N", "grades.standard.edge_strength=1 MPa",
        "lots.sound.braze_share=0.01", "bodies.steel.strength=1 MPa", "models.acceleration_scale=20 K",
        "models.pocket_conductance=10 W/(m2 K)", "layers.1.conductivity=100 W/(m K)"})
    EXPECT_TRUE(errors_of(plain_text(), {set}).empty()) << set;
}

}  // namespace
}  // namespace dullcast::input
