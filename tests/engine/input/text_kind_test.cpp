#include "engine/input/text_kind.hpp"

#include <gtest/gtest.h>

#include "engine/input/scenario_reader.hpp"

namespace dullcast::input {
namespace {

TextKind kind_of(const char* text) {
  return kind_of_text(ScenarioReader::parse(text, "a.yaml"));
}

TEST(TextKind, IsToldByTheKeysAtTheTop) {
  EXPECT_EQ(kind_of("bit: x\ncolumn: {}\n"), TextKind::scenario);
  EXPECT_EQ(kind_of("title: nothing else\n"), TextKind::scenario);
  EXPECT_EQ(kind_of("scenario: a.yaml\ndesign: {}\n"), TextKind::sweep_plan);
  EXPECT_EQ(kind_of("shop: {}\nbits: b.csv\n"), TextKind::shop_plan);
  EXPECT_EQ(kind_of("shelf: []\nshared: {}\n"), TextKind::shelf);
  EXPECT_EQ(kind_of("inspected_bits: 40\nshelf: shelf.csv\n"), TextKind::learned);
}

TEST(TextKind, AScenarioStaysOneWhateverElseItHolds) {
  EXPECT_EQ(kind_of("bit: x\nshop: {}\ndesign: {}\nshelf: []\n"), TextKind::scenario);
}

}  // namespace
}  // namespace dullcast::input
