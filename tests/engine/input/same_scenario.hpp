#pragma once

#include <gtest/gtest.h>

#include <bit>
#include <cstdint>
#include <string>

#include "engine/input/scenario_writer.hpp"
#include "engine/scenario/scenario.hpp"

/// Two scenarios are one, to the last bit: their resolved texts, which hold all a run depends on, and beside
/// them what is derived while reading or stands in no text.
namespace dullcast::testing {

inline bool same_bits(double one, double other) {
  return std::bit_cast<std::uint64_t>(one) == std::bit_cast<std::uint64_t>(other);
}

template <class Array>
bool same_entries(const Array& one, const Array& other) {
  if (one.size() != other.size()) return false;
  for (Eigen::Index i = 0; i < one.size(); ++i)
    if (!same_bits(static_cast<double>(one(i)), static_cast<double>(other(i)))) return false;
  return true;
}

inline void expect_same_numbers(const scenario::Scenario& one, const scenario::Scenario& other) {
  struct Named {
    std::string name;
    scenario::Quantity quantity;
  };
  std::vector<Named> numbers;
  scenario::Scenario left = one, right = other;
  scenario::for_each_number(left, [&](const std::string& name, scenario::Quantity& quantity) {
    numbers.push_back({name, quantity});
  });
  std::size_t k = 0;
  scenario::for_each_number(right, [&](const std::string& name, scenario::Quantity& quantity) {
    ASSERT_LT(k, numbers.size());
    const Named& named = numbers[k++];
    EXPECT_EQ(named.name, name);
    EXPECT_TRUE(same_bits(named.quantity.low, quantity.low)) << name;
    EXPECT_TRUE(same_bits(named.quantity.central, quantity.central)) << name;
    EXPECT_TRUE(same_bits(named.quantity.high, quantity.high)) << name;
    EXPECT_EQ(named.quantity.mark, quantity.mark) << name;
    EXPECT_EQ(named.quantity.source, quantity.source) << name;
  });
  EXPECT_EQ(k, numbers.size());
}

inline void expect_same_layout(const scenario::BitRecord& one, const scenario::BitRecord& other) {
  EXPECT_EQ(one.layout.blades, other.layout.blades);
  EXPECT_TRUE(same_bits(one.layout.bit_radius, other.layout.bit_radius));
  EXPECT_TRUE(same_entries(one.layout.kind, other.layout.kind));
  EXPECT_TRUE(same_entries(one.layout.radius, other.layout.radius));
  EXPECT_TRUE(same_entries(one.layout.azimuth, other.layout.azimuth));
  EXPECT_TRUE(same_entries(one.layout.depth, other.layout.depth));
  EXPECT_TRUE(same_entries(one.layout.back_rake, other.layout.back_rake));
  EXPECT_TRUE(same_entries(one.layout.side_rake, other.layout.side_rake));
  EXPECT_TRUE(same_entries(one.layout.profile_angle, other.layout.profile_angle));
  EXPECT_TRUE(same_entries(one.layout.exposure, other.layout.exposure));
  EXPECT_TRUE(same_entries(one.layout.blade, other.layout.blade));
  EXPECT_TRUE(same_bits(one.build.port_area, other.build.port_area));
  EXPECT_TRUE(same_entries(one.starting_wear, other.starting_wear));
  EXPECT_TRUE(same_entries(one.starting_damage, other.starting_damage));
  EXPECT_TRUE(same_entries(one.starting_chip_hazard, other.starting_chip_hazard));
  ASSERT_EQ(one.layout.shapes.size(), other.layout.shapes.size());
  for (std::size_t k = 0; k < one.layout.shapes.size(); ++k)
    EXPECT_TRUE(same_bits(one.layout.shapes[k].edge_radius, other.layout.shapes[k].edge_radius));
}

inline bool same_place(const scenario::Location& one, const scenario::Location& other) {
  return one.file == other.file && one.line == other.line && one.column == other.column;
}

inline void expect_same_scenario(const scenario::Scenario& one, const scenario::Scenario& other) {
  EXPECT_EQ(input::resolved_text(one), input::resolved_text(other));
  EXPECT_EQ(one.title, other.title);
  EXPECT_EQ(one.file, other.file);
  expect_same_numbers(one, other);
  expect_same_layout(one.bit, other.bit);
  ASSERT_EQ(one.column.layers.size(), other.column.layers.size());
  for (std::size_t k = 0; k < one.column.layers.size(); ++k)
    EXPECT_TRUE(same_place(one.column.layers[k].location, other.column.layers[k].location)) << "layer " << k;
  ASSERT_EQ(one.upsets.size(), other.upsets.size());
  for (std::size_t k = 0; k < one.upsets.size(); ++k)
    EXPECT_TRUE(same_place(one.upsets[k].location, other.upsets[k].location)) << "upset " << k;
}

}  // namespace dullcast::testing
