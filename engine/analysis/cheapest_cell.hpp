#pragma once

#include <array>
#include <cstddef>

#include "engine/analysis/operating_window.hpp"

namespace dullcast::analysis {

/// What money says of a window's cells. Pointers are into the window.
struct CheapestCells {
  /// The cheapest cell that no limit holds back; null where none is inside or nothing has a price.
  const WindowCell* free = nullptr;
  /// It lies at an edge of the grid, so what lies beyond may be cheaper and was not tried. A grid of one
  /// weight, or of one speed, has no such edge.
  bool heaviest = false, lightest = false, fastest = false, slowest = false;
  /// The cheapest of the cells that cost less than `free` (where there is none: of all that drill) but are
  /// past a limit; null for none.
  const WindowCell* held_back = nullptr;
  /// How many such cells each limit holds back, by its number.
  std::array<int, window_limit_count> held_by{};

  bool at_edge() const { return heaviest || lightest || fastest || slowest; }
};

CheapestCells cheapest_cells(const OperatingWindow& window);

}  // namespace dullcast::analysis
