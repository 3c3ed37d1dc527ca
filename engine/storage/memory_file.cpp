#include "engine/storage/memory_file.hpp"

#include <cstdlib>
#include <cstring>
#include <utility>

namespace dullcast::storage {
namespace {

constexpr std::size_t growth = std::size_t{1} << 20;  // bytes that the memory grows by

// Even a file in memory needs a name, and HDF5 looks on the disk for it: no file can have this one.
constexpr const char* no_name = "/dev/null/run";

void succeeded(herr_t status, const char* what) {
  if (status < 0) throw H5::FileIException(what, "HDF5 refused the call");
}

}  // namespace

MemoryFile::~MemoryFile() {
  std::free(closed_);
}

// HDF5 tells these which step it is at; the one at which the file closes hands us the finished image. (Asking
// for the image of an open file instead, H5Fget_file_image, gives a superblock whose checksum is wrong in
// HDF5 1.10.8.)
void* MemoryFile::allocate(std::size_t size, H5FD_file_image_op_t, void*) {
  return std::malloc(size);
}

void* MemoryFile::copy(void* to, const void* from, std::size_t size, H5FD_file_image_op_t, void*) {
  return std::memcpy(to, from, size);
}

void* MemoryFile::reallocate(void* memory, std::size_t size, H5FD_file_image_op_t, void* self) {
  static_cast<MemoryFile*>(self)->size_ = size;
  return std::realloc(memory, size);
}

herr_t MemoryFile::release(void* memory, H5FD_file_image_op_t operation, void* self) {
  if (operation == H5FD_FILE_IMAGE_OP_FILE_CLOSE) {
    std::free(std::exchange(static_cast<MemoryFile*>(self)->closed_, memory));
  } else {
    std::free(memory);
  }
  return 0;
}

H5::H5File MemoryFile::create() {
  H5::FileCreatPropList creation;
  const unsigned order = H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED;
  succeeded(H5Pset_link_creation_order(creation.getId(), order), "link order");
  succeeded(H5Pset_attr_creation_order(creation.getId(), order), "attribute order");
  succeeded(H5Pset_obj_track_times(creation.getId(), 0), "object times");
  H5::FileAccPropList access;
  access.setCore(growth, false);
  access.setLibverBounds(H5F_LIBVER_V18, H5F_LIBVER_V18);
  H5FD_file_image_callbacks_t calls = {};
  calls.image_malloc = allocate;
  calls.image_memcpy = copy;
  calls.image_realloc = reallocate;
  calls.image_free = release;
  calls.udata_copy = [](void* self) { return self; };
  calls.udata_free = [](void*) -> herr_t { return 0; };
  calls.udata = this;
  succeeded(H5Pset_file_image_callbacks(access.getId(), &calls), "memory calls");
  return H5::H5File(no_name, H5F_ACC_TRUNC, creation, access);
}

std::vector<std::byte> MemoryFile::take_bytes() {
  // The memory is rounded up; a superblock of version 2 holds the file's end in the eight bytes from byte 28,
  // least significant first (HDF5 file format specification 3.0, section II.A).
  constexpr std::size_t version_at = 8, end_at = 28, least = 48;
  const auto* first = static_cast<const std::byte*>(closed_);
  if (first == nullptr || size_ < least || first[version_at] != std::byte{2}) {
    throw H5::FileIException("take_bytes", "the file did not close");
  }
  std::size_t end = 0;
  for (std::size_t k = 8; k-- > 0;) end = (end << 8) | std::to_integer<std::size_t>(first[end_at + k]);
  if (end < least || end > size_) throw H5::FileIException("take_bytes", "the file has an impossible end");
  return {first, first + end};
}

H5::H5File open_in_memory(const std::vector<std::byte>& bytes) {
  H5::FileAccPropList access;
  access.setCore(growth, false);
  std::vector<std::byte> image = bytes;  // HDF5 asks for memory it might write to, then takes its own copy
  succeeded(H5Pset_file_image(access.getId(), image.data(), image.size()), "file image");
  return H5::H5File(no_name, H5F_ACC_RDONLY, H5::FileCreatPropList::DEFAULT, access);
}

QuietHdf5::QuietHdf5() {
  H5Eget_auto2(H5E_DEFAULT, &printer_, &client_);
  H5Eset_auto2(H5E_DEFAULT, nullptr, nullptr);
}

QuietHdf5::~QuietHdf5() {
  H5Eset_auto2(H5E_DEFAULT, printer_, client_);
}

}  // namespace dullcast::storage
