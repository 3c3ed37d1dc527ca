#pragma once

#include <string>
#include <vector>

#include "engine/storage/sweep_table.hpp"

namespace dullcast::storage {

/// A run's course at even steps of footage.
struct ThinHistory {
  long case_number = 0;
  Eigen::ArrayXXd values;  // rows x columns
};

/// What one chunk of consecutive cases came to: the unit of a sweep's work, which a killed process loses or
/// keeps.
struct SweepPart {
  std::string fingerprint;  // of the sweep it belongs to
  long first_case = 1;      // counted from 1
  /// cases x columns: inputs, then outcomes.
  Eigen::Array<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor> values;
  std::vector<SweepFailure> failures;
  std::vector<ThinHistory> histories;
};

}  // namespace dullcast::storage
