#include "engine/analysis/cheapest_cell.hpp"

#include <gtest/gtest.h>

namespace dullcast::analysis {
namespace {

/// Three weights by three speeds; every cell costs 10 until a test says otherwise.
OperatingWindow made_window() {
  OperatingWindow window;
  window.weights = {1e3, 2e3, 3e3};
  window.rotary_speeds = {1.0, 1.5, 2.0};
  for (const double weight : window.weights) {
    for (const double speed : window.rotary_speeds) {
      WindowCell cell;
      cell.weight = weight;
      cell.rotary_speed = speed;
      cell.cost_per_metre = 10.0;
      window.cells.push_back(cell);
    }
  }
  return window;
}

WindowCell& cell(OperatingWindow& window, std::size_t weight, std::size_t speed) {
  return window.cells[weight * 3 + speed];
}

TEST(CheapestCell, InTheMiddleIsAtNoEdge) {
  OperatingWindow window = made_window();
  cell(window, 1, 1).cost_per_metre = 9.0;
  const CheapestCells found = cheapest_cells(window);
  EXPECT_EQ(found.free, &cell(window, 1, 1));
  EXPECT_FALSE(found.at_edge());
  EXPECT_EQ(found.held_back, nullptr);
}

TEST(CheapestCell, AtTheGridsEdgeIsSaidSo) {
  OperatingWindow window = made_window();
  cell(window, 1, 2).cost_per_metre = 9.0;
  CheapestCells found = cheapest_cells(window);
  EXPECT_TRUE(found.fastest && !found.slowest && !found.heaviest && !found.lightest);
  cell(window, 2, 0).cost_per_metre = 8.0;
  found = cheapest_cells(window);
  EXPECT_TRUE(found.heaviest && found.slowest && !found.fastest && !found.lightest);
  // A single speed was asked for: it is no edge.
  window.rotary_speeds = {1.0};
  window.cells = {cell(window, 0, 0), cell(window, 1, 0), cell(window, 2, 0)};
  found = cheapest_cells(window);
  EXPECT_TRUE(found.heaviest && !found.slowest && !found.fastest);
}

TEST(CheapestCell, WhatALimitHoldsBackIsToldApart) {
  OperatingWindow window = made_window();
  cell(window, 1, 1).cost_per_metre = 9.0;
  cell(window, 2, 2).cost_per_metre = 5.0;
  cell(window, 2, 2).limit = WindowLimit::heat;
  cell(window, 2, 1).cost_per_metre = 6.0;
  cell(window, 2, 1).limit = WindowLimit::rubbing;
  cell(window, 2, 0).limit = WindowLimit::rubbing;  // dearer than what is free
  // A bit that came to a stand, and a trial that failed, are no bargain.
  cell(window, 0, 0).cost_per_metre = 1.0;
  cell(window, 0, 0).limit = WindowLimit::standstill;
  cell(window, 0, 0).stopped = true;
  cell(window, 0, 1).cost_per_metre = 1.0;
  cell(window, 0, 1).limit = WindowLimit::failed;
  const CheapestCells found = cheapest_cells(window);
  EXPECT_EQ(found.free, &cell(window, 1, 1));
  EXPECT_EQ(found.held_back, &cell(window, 2, 2));
  EXPECT_EQ(found.held_by[static_cast<std::size_t>(WindowLimit::heat)], 1);
  EXPECT_EQ(found.held_by[static_cast<std::size_t>(WindowLimit::rubbing)], 1);
}

TEST(CheapestCell, NothingFreeNamesTheCheapestHeldBackAndNothingPricedNamesNone) {
  OperatingWindow window = made_window();
  for (WindowCell& each : window.cells) each.limit = WindowLimit::wear;
  cell(window, 1, 2).cost_per_metre = 7.0;
  CheapestCells found = cheapest_cells(window);
  EXPECT_EQ(found.free, nullptr);
  EXPECT_EQ(found.held_back, &cell(window, 1, 2));
  EXPECT_EQ(found.held_by[static_cast<std::size_t>(WindowLimit::wear)], 9);
  for (WindowCell& each : window.cells) each.cost_per_metre.reset();
  found = cheapest_cells(window);
  EXPECT_EQ(found.free, nullptr);
  EXPECT_EQ(found.held_back, nullptr);
}

}  // namespace
}  // namespace dullcast::analysis
