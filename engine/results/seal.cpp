#include "engine/results/seal.hpp"

#include <algorithm>
#include <boost/crc.hpp>
#include <cstdio>
#include <string>
#include <string_view>

namespace dullcast {
namespace {

constexpr std::string_view label = "\nCRC-32 ";
constexpr std::size_t length = 16;

std::string seal_of(const std::byte* bytes, std::size_t count) {
  boost::crc_32_type crc;
  crc.process_bytes(bytes, count);
  char digits[9];
  std::snprintf(digits, sizeof digits, "%08x", static_cast<unsigned>(crc.checksum()));
  return std::string(label) + digits;
}

}  // namespace

void append_seal(std::vector<std::byte>& bytes) {
  for (const char letter : seal_of(bytes.data(), bytes.size()))
    bytes.push_back(static_cast<std::byte>(letter));
}

Seal check_seal(const std::vector<std::byte>& bytes) {
  if (bytes.size() < length) return Seal::none;
  const std::size_t before = bytes.size() - length;
  const std::string_view found(reinterpret_cast<const char*>(bytes.data()) + before, length);
  if (found.substr(0, label.size()) != label) return Seal::none;
  return found == seal_of(bytes.data(), before) ? Seal::intact : Seal::broken;
}

}  // namespace dullcast
