#pragma once

#include <string>
#include <utility>
#include <vector>

#include "engine/storage/stored_file.hpp"
#include "engine/storage/stored_tree.hpp"
#include "engine/storage/sweep_part.hpp"

namespace dullcast::storage {

/// Puts one part of a sweep at `path`, all of it or none (see Hdf5FileAside).
/// Safe from several threads: HDF5 is used by one at a time. Throws FileError.
void write_sweep_part(const std::string& path, const SweepPart& part);

/// Reads a part again, to the last bit. Throws FileError when the file cannot be read, is damaged in any
/// byte, or is no part of a sweep.
SweepPart read_sweep_part(const std::string& path);

/// The same of what such a file holds; `path` is the name for messages.
SweepPart sweep_part_of(const StoredGroup& file, const std::string& path);

/// Parts that are read in order, many by one child process (StoredFileSeries).
class SweepPartSeries {
 public:
  explicit SweepPartSeries(std::vector<std::string> paths) : files_(std::move(paths), part_file) {}
  /// The part at the k-th path. Throws as read_sweep_part does.
  SweepPart read(std::size_t k) { return sweep_part_of(files_.read(k), files_.path(k)); }

 private:
  StoredFileSeries files_;
};

}  // namespace dullcast::storage
