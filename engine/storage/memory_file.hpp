#pragma once

#include <H5Cpp.h>

#include <cstddef>
#include <vector>

namespace dullcast::storage {

/// A new HDF5 file that lives in memory only. Made reproducibly: creation order tracked, object times off,
/// checksummed headers in the format that readers know since HDF5 1.8 (2008).
/// Order of use: create, write, destroy every HDF5 object of the file, take_bytes.
class MemoryFile {
 public:
  MemoryFile() = default;
  MemoryFile(const MemoryFile&) = delete;
  MemoryFile& operator=(const MemoryFile&) = delete;
  ~MemoryFile();
  H5::H5File create();
  /// The finished file. Throws H5::FileIException when it was not closed properly.
  std::vector<std::byte> take_bytes();

 private:
  static void* allocate(std::size_t size, H5FD_file_image_op_t operation, void* self);
  static void* copy(void* to, const void* from, std::size_t size, H5FD_file_image_op_t operation, void* self);
  static void* reallocate(void* memory, std::size_t size, H5FD_file_image_op_t operation, void* self);
  static herr_t release(void* memory, H5FD_file_image_op_t operation, void* self);

  void* closed_ = nullptr;  // the image that HDF5 let go of when the file closed
  std::size_t size_ = 0;    // of the memory, at least that of the file
};

/// Opens the bytes of a whole HDF5 file for reading. Throws H5::Exception.
H5::H5File open_in_memory(const std::vector<std::byte>& bytes);

/// HDF5 prints its error stack to the terminal by itself; not while one of these lives.
class QuietHdf5 {
 public:
  QuietHdf5();
  ~QuietHdf5();
  QuietHdf5(const QuietHdf5&) = delete;
  QuietHdf5& operator=(const QuietHdf5&) = delete;

 private:
  H5E_auto2_t printer_ = nullptr;
  void* client_ = nullptr;
};

}  // namespace dullcast::storage
