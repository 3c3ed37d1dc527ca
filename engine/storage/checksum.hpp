#pragma once

#include <cstddef>
#include <functional>
#include <vector>

namespace dullcast::storage {

/// The checksum that ends a file: a line feed, "CRC-32 " and eight hexadecimal digits, 16 bytes in all. The
/// number is the CRC-32 of IEEE 802.3 (as in zlib) over all `size` bytes before it, of which `read` gives up
/// to `count` from `offset`, so that the file may be larger than memory. HDF5 readers ignore bytes past the
/// end that the file's own header states, and HDF5 drops them when a tool changes the file in place. HDF5
/// checks most of what it reads by itself, but not its heap of texts: a wrong byte there can crash it.
std::vector<std::byte> checksum_of(
    std::size_t size,
    const std::function<std::size_t(std::size_t offset, void* bytes, std::size_t count)>& read);

enum class Checksum { intact, none, broken };

/// Whether a file of `size` bytes ends with a checksum that agrees with the bytes before it. All of them are
/// read only where there is one.
Checksum verify_checksum(
    std::size_t size,
    const std::function<std::size_t(std::size_t offset, void* bytes, std::size_t count)>& read);

}  // namespace dullcast::storage
