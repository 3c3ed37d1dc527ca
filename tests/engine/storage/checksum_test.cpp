#include "engine/storage/checksum.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <string>

namespace dullcast::storage {
namespace {

std::vector<std::byte> bytes_of(const std::string& text) {
  std::vector<std::byte> bytes;
  for (const char letter : text) bytes.push_back(static_cast<std::byte>(letter));
  return bytes;
}

Checksum verified(const std::string& text) {
  return verify_checksum(text.size(), [&](std::size_t at, void* bytes, std::size_t count) {
    return text.copy(static_cast<char*>(bytes), count, at);
  });
}

// The check value of CRC-32 (IEEE 802.3, ITU-T V.42) is that of the digits 1 to 9: cbf43926.
TEST(Checksum, TheCheckValueOfIeee8023) {
  const std::string digits = "123456789";
  // A few bytes at a time, as a disk may give them.
  const auto read = [&](std::size_t at, void* bytes, std::size_t count) {
    return digits.copy(static_cast<char*>(bytes), std::min<std::size_t>(count, 4), at);
  };
  EXPECT_EQ(checksum_of(digits.size(), read), bytes_of("\nCRC-32 cbf43926"));
  EXPECT_EQ(verified("123456789\nCRC-32 cbf43926"), Checksum::intact);
}

TEST(Checksum, AWrongByteBreaksItAndAMissingOneIsNone) {
  EXPECT_EQ(verified("123456788\nCRC-32 cbf43926"), Checksum::broken);
  EXPECT_EQ(verified("123456789\nCRC-32 cbf43927"), Checksum::broken);
  EXPECT_EQ(verified("123456789\nCRC-32 cbf4392"), Checksum::none);
  EXPECT_EQ(verified("123456789"), Checksum::none);
  EXPECT_EQ(verified(""), Checksum::none);
  EXPECT_EQ(verified("\nCRC-32 00000000"), Checksum::intact);  // of no bytes
}

}  // namespace
}  // namespace dullcast::storage
