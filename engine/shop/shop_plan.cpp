#include "engine/shop/shop_plan.hpp"

#include <algorithm>
#include <cmath>

namespace dullcast::shop {
namespace {

// Makers' lists state whole millimetres and hundredths; closer ones are the same cutter.
constexpr double same_diameter = 5e-5;  // m

}  // namespace

std::optional<std::size_t> stock_of(const std::vector<CutterStock>& kinds, double diameter,
                                    const std::string& grade) {
  const auto found = std::find_if(kinds.begin(), kinds.end(), [&](const CutterStock& kind) {
    return kind.grade == grade && std::abs(kind.diameter - diameter) <= same_diameter;
  });
  if (found == kinds.end()) return std::nullopt;
  return static_cast<std::size_t>(found - kinds.begin());
}

}  // namespace dullcast::shop
