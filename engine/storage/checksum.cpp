#include "engine/storage/checksum.hpp"

#include <algorithm>
#include <boost/crc.hpp>
#include <cstdio>
#include <string>
#include <string_view>

namespace dullcast::storage {
namespace {

constexpr std::string_view label = "\nCRC-32 ";
constexpr std::size_t length = 16;

std::string checksum_text(const boost::crc_32_type& crc) {
  char digits[9];
  std::snprintf(digits, sizeof digits, "%08x", static_cast<unsigned>(crc.checksum()));
  return std::string(label) + digits;
}

}  // namespace

std::vector<std::byte> checksum_of(std::size_t size,
                                   const std::function<std::size_t(std::size_t, void*, std::size_t)>& read) {
  boost::crc_32_type crc;
  std::vector<std::byte> block(std::size_t{1} << 20);
  for (std::size_t at = 0; at < size;) {
    const std::size_t got = read(at, block.data(), std::min(block.size(), size - at));
    if (got == 0) break;
    crc.process_bytes(block.data(), got);
    at += got;
  }
  std::vector<std::byte> checksum;
  for (const char letter : checksum_text(crc)) checksum.push_back(static_cast<std::byte>(letter));
  return checksum;
}

Checksum verify_checksum(std::size_t size,
                         const std::function<std::size_t(std::size_t, void*, std::size_t)>& read) {
  if (size < length) return Checksum::none;
  std::vector<std::byte> end(length);
  if (read(size - length, end.data(), length) != length) return Checksum::none;
  const std::string_view begins(reinterpret_cast<const char*>(end.data()), label.size());
  if (begins != label) return Checksum::none;
  return checksum_of(size - length, read) == end ? Checksum::intact : Checksum::broken;
}

}  // namespace dullcast::storage
