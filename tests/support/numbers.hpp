#pragma once

#include <limits>

#include "models/common/constants.hpp"

namespace dullcast::testing {

inline constexpr double nan = std::numeric_limits<double>::quiet_NaN();
inline constexpr double infinity = std::numeric_limits<double>::infinity();
inline constexpr double degree = pi / 180.0;  // rad

}  // namespace dullcast::testing
