#pragma once

#include <H5Cpp.h>

#include <cstddef>
#include <vector>

namespace dullcast::storage {

/// Opens the bytes of a whole HDF5 file for reading. Throws H5::Exception.
H5::H5File open_in_memory(const std::vector<std::byte>& bytes);

}  // namespace dullcast::storage
