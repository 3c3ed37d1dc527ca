#pragma once

#include <string>

namespace dullcast::scenario {

/// An uncertain library number: low <= central <= high, its mark and its source.
struct Quantity {
  double low = 0.0, central = 0.0, high = 0.0;  // SI
  std::string mark;  // pub, hb, cp, mem, fit, asm, or "given" when a scenario states it
  std::string source;
};

}  // namespace dullcast::scenario
