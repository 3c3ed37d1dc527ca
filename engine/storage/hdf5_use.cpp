#include "engine/storage/hdf5_use.hpp"

namespace dullcast::storage {
namespace {

std::mutex& hdf5_mutex() {
  static std::mutex mutex;
  return mutex;
}

}  // namespace

Hdf5Use::Hdf5Use() : alone_(hdf5_mutex()) {
  H5Eget_auto2(H5E_DEFAULT, &printer_, &client_);
  H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);
}

Hdf5Use::~Hdf5Use() {
  H5Eset_auto2(H5E_DEFAULT, printer_, client_);
}

}  // namespace dullcast::storage
