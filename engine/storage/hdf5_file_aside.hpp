#pragma once

#include <H5Cpp.h>

#include <functional>
#include <memory>
#include <string>

#include "engine/base/whole_file.hpp"

namespace dullcast::storage {

/// A new HDF5 file, written aside and put at its path whole or not at all (see FileAside). HDF5 lays it out
/// and writes it, part by part as the values come, through a virtual file driver of our own: memory stays
/// that of HDF5's headers, whatever the length of the tables.
///
/// The driver never tells HDF5 that a disk is full or broken. HDF5 1.10 does not survive that through its own
/// driver: it leaves the file open and crashes when the process ends (the tests show it), and the C++ classes
/// swallow what fails while a dataset closes. Ours keeps the first error, drops what HDF5 writes from there
/// on, and lets it close a file that nobody will see; check() and keep() throw the error.
///
/// Made reproducibly: creation order tracked, object times off, checksummed headers in the format that
/// readers know since HDF5 1.8 (2008). Order of use: create, write, let go of every HDF5 object of the file,
/// keep. Create, write and let go under Hdf5Use.
class Hdf5FileAside {
 public:
  /// Throws FileError when no file can be made there.
  explicit Hdf5FileAside(const std::string& path);
  ~Hdf5FileAside();
  Hdf5FileAside(const Hdf5FileAside&) = delete;
  Hdf5FileAside& operator=(const Hdf5FileAside&) = delete;

  /// The empty file, to be asked for once. Throws H5::Exception.
  H5::H5File create();
  /// Throws the FileError of the first write or read that failed, if one did.
  void check() const;
  /// Ends the closed file with its checksum and gives it its name. Throws FileError.
  void keep();

 private:
  struct State;
  struct Driver;  // what HDF5 calls

  std::string path_;
  base::FileAside file_;
  std::shared_ptr<State> state_;
};

/// Writes a file at one go: makes it, lets `put` fill it under Hdf5Use, and gives it its name. Throws
/// FileError
/// ("nothing written: ...") where HDF5 or the disk fails, `what` being what could not be made ("file"), and
/// whatever `put` throws; then there is no file, or the one that was there before.
void write_hdf5_file(const std::string& path, const char* what,
                     const std::function<void(const H5::H5File&)>& put);

}  // namespace dullcast::storage
