#include "engine/results/hdf5_mutex.hpp"

namespace dullcast {

std::mutex& hdf5_mutex() {
  static std::mutex mutex;
  return mutex;
}

}  // namespace dullcast
