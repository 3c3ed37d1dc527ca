#include "engine/storage/hdf5_mutex.hpp"

namespace dullcast::storage {

std::mutex& hdf5_mutex() {
  static std::mutex mutex;
  return mutex;
}

}  // namespace dullcast::storage
