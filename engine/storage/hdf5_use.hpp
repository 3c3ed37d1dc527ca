#pragma once

#include <H5Epublic.h>

#include <mutex>

namespace dullcast::storage {

/// While one of these lives, no other thread uses HDF5 through this program, and HDF5 does not print its
/// error stack to the terminal by itself. Everything here that calls HDF5 holds one, and holds it until the
/// last HDF5 object it made is gone. Not to be nested.
///
/// HDF5 promises that threads may call it together for its C library alone, and only where that was built so
/// (H5is_library_threadsafe: Debian's serial build is, its MPI build is not). Of the C++ classes and the
/// high-level library (dimension scales), both used here, it promises nothing. HDF5 never works on two calls
/// at once, so that waiting here costs next to nothing.
class Hdf5Use {
 public:
  Hdf5Use();
  ~Hdf5Use();
  Hdf5Use(const Hdf5Use&) = delete;
  Hdf5Use& operator=(const Hdf5Use&) = delete;

 private:
  std::lock_guard<std::mutex> alone_;
  H5E_auto2_t printer_ = nullptr;
  void* client_ = nullptr;
};

}  // namespace dullcast::storage
