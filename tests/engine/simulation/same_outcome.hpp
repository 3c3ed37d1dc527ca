#pragma once

#include <gtest/gtest.h>

#include "engine/simulation/outcome.hpp"

namespace dullcast::testing {

using namespace simulation;  // the room that is tested

inline void expect_same_bits(const std::optional<Milestone>& a, const std::optional<Milestone>& b) {
  ASSERT_EQ(a.has_value(), b.has_value());
  if (!a) return;
  EXPECT_EQ(a->hole, b->hole);
  EXPECT_EQ(a->depth, b->depth);
  EXPECT_EQ(a->rotating_time, b->rotating_time);
  EXPECT_EQ(a->energy, b->energy);
  EXPECT_EQ(a->rule, b->rule);
  EXPECT_EQ(a->cutters, b->cutters);
}

/// All that a run computed, but for its history's rows, bit for bit.
inline void expect_same_bits(const RunOutcome& a, const RunOutcome& b) {
  EXPECT_EQ(a.steps, b.steps);
  EXPECT_EQ(a.refused_steps, b.refused_steps);
  EXPECT_EQ(a.right_hand_sides, b.right_hand_sides);
  EXPECT_EQ(a.footage, b.footage);
  EXPECT_EQ(a.rotating_time, b.rotating_time);
  EXPECT_EQ(a.energy, b.energy);
  EXPECT_EQ(a.energy_residual, b.energy_residual);
  EXPECT_TRUE((a.end.worn_height == b.end.worn_height).all());
  EXPECT_TRUE((a.end.heat_damage == b.end.heat_damage).all());
  EXPECT_EQ(a.hottest.temperature, b.hottest.temperature);
  EXPECT_EQ(a.hottest.depth, b.hottest.depth);
  expect_same_bits(a.rework_due, b.rework_due);
  expect_same_bits(a.beyond_repair, b.beyond_repair);
  ASSERT_EQ(a.events.size(), b.events.size());
  for (std::size_t k = 0; k < a.events.size(); ++k) {
    EXPECT_EQ(a.events[k].kind, b.events[k].kind);
    EXPECT_EQ(a.events[k].time, b.events[k].time);
    EXPECT_EQ(a.events[k].depth, b.events[k].depth);
  }
  ASSERT_EQ(a.passages.size(), b.passages.size());
  for (std::size_t k = 0; k < a.passages.size(); ++k) {
    EXPECT_EQ(a.passages[k].mean_torque, b.passages[k].mean_torque);
    EXPECT_EQ(a.passages[k].hottest_flat, b.passages[k].hottest_flat);
  }
}

}  // namespace dullcast::testing
