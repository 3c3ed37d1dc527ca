#pragma once

#include <H5Cpp.h>

#include <vector>

#include "engine/storage/sweep_file.hpp"

namespace dullcast::storage {

/// How much of what a sweep's file holds, over all parts.
struct SweepCounts {
  hsize_t cases = 0, failures = 0, histories = 0;
};

/// The tables of a sweep's file, open for writing: one value a case, a failure or a kept course, but for
/// `message` (failures by letters) and `histories` (one a column: courses by rows).
struct SweepTables {
  H5::DataSet cases, point, draw;
  std::vector<H5::DataSet> columns;
  H5::DataSet failed_cases, letters, message;
  H5::DataSet kept_cases, rows;
  std::vector<H5::DataSet> histories;
};

/// Puts everything that a sweep's file holds but its tables' values into a new file. Where the values stand
/// depends on the header and the counts alone. Under Hdf5Use. Throws H5::Exception.
SweepTables put_tables(const H5::H5File& file, const SweepHeader& header, const SweepCounts& counts);

}  // namespace dullcast::storage
