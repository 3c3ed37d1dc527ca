#include "engine/storage/open_in_memory.hpp"

namespace dullcast::storage {

H5::H5File open_in_memory(const std::vector<std::byte>& bytes) {
  constexpr std::size_t growth = std::size_t{1} << 20;  // must be given, though nothing grows
  H5::FileAccPropList access;
  access.setCore(growth, false);
  std::vector<std::byte> image = bytes;  // HDF5 asks for memory it might write to, then takes its own copy
  if (H5Pset_file_image(access.getId(), image.data(), image.size()) < 0)
    throw H5::FileIException("open_in_memory", "HDF5 refused the bytes");
  // Even a file in memory needs a name, and HDF5 looks on the disk for it: no file can have this one.
  return H5::H5File("/dev/null/run", H5F_ACC_RDONLY, H5::FileCreatPropList::DEFAULT, access);
}

}  // namespace dullcast::storage
