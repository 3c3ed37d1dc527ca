#pragma once

#include <mutex>

namespace dullcast::storage {

/// HDF5 as Debian builds it keeps state for the whole process without locks: whoever calls it while other
/// threads may do so too holds this.
std::mutex& hdf5_mutex();

}  // namespace dullcast::storage
