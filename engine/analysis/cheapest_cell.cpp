#include "engine/analysis/cheapest_cell.hpp"

#include <cmath>

namespace dullcast::analysis {
namespace {

/// A cell that came to a stand or failed has no cost worth comparing.
bool priced(const WindowCell& cell) {
  return cell.cost_per_metre && std::isfinite(*cell.cost_per_metre) && !cell.stopped &&
         cell.limit != WindowLimit::failed;
}

bool cheaper(const WindowCell& cell, const WindowCell* than) {
  return than == nullptr || *cell.cost_per_metre < *than->cost_per_metre;
}

}  // namespace

CheapestCells cheapest_cells(const OperatingWindow& window) {
  CheapestCells found;
  for (const WindowCell& cell : window.cells) {
    if (priced(cell) && cell.inside() && cheaper(cell, found.free)) found.free = &cell;
  }
  for (const WindowCell& cell : window.cells) {
    if (!priced(cell) || cell.inside() || !cheaper(cell, found.free)) continue;
    ++found.held_by[static_cast<std::size_t>(cell.limit)];
    if (cheaper(cell, found.held_back)) found.held_back = &cell;
  }
  if (found.free == nullptr) return found;
  if (window.weights.size() > 1) {
    found.lightest = found.free->weight == window.weights.front();
    found.heaviest = found.free->weight == window.weights.back();
  }
  if (window.rotary_speeds.size() > 1) {
    found.slowest = found.free->rotary_speed == window.rotary_speeds.front();
    found.fastest = found.free->rotary_speed == window.rotary_speeds.back();
  }
  return found;
}

}  // namespace dullcast::analysis
