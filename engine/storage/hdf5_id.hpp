#pragma once

#include <hdf5.h>

#include <utility>

namespace dullcast::storage {

/// An HDF5 identifier that is given back; below 0 where HDF5 had none to give.
class Hdf5Id {
 public:
  Hdf5Id(hid_t id, herr_t (*close)(hid_t)) : id_(id), close_(close) {}
  Hdf5Id(const Hdf5Id&) = delete;
  Hdf5Id& operator=(const Hdf5Id&) = delete;
  Hdf5Id(Hdf5Id&& other) noexcept : id_(std::exchange(other.id_, -1)), close_(other.close_) {}
  Hdf5Id& operator=(Hdf5Id&&) = delete;
  ~Hdf5Id() {
    if (id_ >= 0) close_(id_);
  }
  hid_t get() const { return id_; }

 private:
  hid_t id_;
  herr_t (*close_)(hid_t);
};

}  // namespace dullcast::storage
