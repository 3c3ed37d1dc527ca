#pragma once

#include <H5Cpp.h>

#include <array>
#include <cstddef>
#include <functional>
#include <map>

namespace dullcast::storage {

/// An HDF5 file in memory of which only what HDF5 writes takes up any: places that datasets are given but
/// that nobody fills do not, so that the frame of a table of any length stays small. It serves to keep HDF5
/// away from the disk, whose errors it does not survive (1.10 crashes when a file cannot be written on
/// closing). Order of use: create, write, close every HDF5 object of the file, then size and pieces. Not to
/// be moved while the file is open. Under hdf5_mutex(), as everything of HDF5.
class FrameMemory {
 public:
  FrameMemory() = default;
  FrameMemory(const FrameMemory&) = delete;
  FrameMemory& operator=(const FrameMemory&) = delete;

  /// A new file with these creation properties. Throws H5::Exception.
  H5::H5File create(const H5::FileCreatPropList& creation, const H5::FileAccPropList& access);
  /// Bytes of the finished file.
  std::size_t size() const { return static_cast<std::size_t>(end_); }
  /// Calls `take(offset, bytes, count)` for what was written, in rising order; bytes between are none or 0.
  void pieces(const std::function<void(std::size_t, const void*, std::size_t)>& take) const;

 private:
  struct Driver;  // what HDF5 calls
  static constexpr std::size_t page_size = 4096;
  using Page = std::array<std::byte, page_size>;

  std::map<haddr_t, Page> pages_;  // by number
  haddr_t end_ = 0;
};

}  // namespace dullcast::storage
