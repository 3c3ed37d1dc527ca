#pragma once

#include <vector>

namespace dullcast::statistics {

/// A mean and its standard error: the root of the values' variance (n - 1 in its denominator) over their
/// number. No mean (NaN) of none, no error of fewer than two.
struct MeanError {
  double mean = 0.0, error = 0.0;
};
MeanError mean_error(const std::vector<double>& values);

}  // namespace dullcast::statistics
