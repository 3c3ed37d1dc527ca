#include "engine/storage/checksum.hpp"

#include <gtest/gtest.h>

#include <string>

namespace dullcast::storage {
namespace {

std::vector<std::byte> bytes_of(const std::string& text) {
  std::vector<std::byte> bytes;
  for (const char letter : text) bytes.push_back(static_cast<std::byte>(letter));
  return bytes;
}

// The check value of CRC-32 (IEEE 802.3, ITU-T V.42) is that of the digits 1 to 9: cbf43926.
TEST(Seal, TheCheckValueOfIeee8023) {
  std::vector<std::byte> bytes = bytes_of("123456789");
  append_checksum(bytes);
  EXPECT_TRUE(bytes == bytes_of("123456789\nCRC-32 cbf43926"));
  EXPECT_EQ(verify_checksum(bytes), Checksum::intact);
}

TEST(Seal, AWrongByteBreaksItAndAMissingSealIsNone) {
  EXPECT_EQ(verify_checksum(bytes_of("123456788\nCRC-32 cbf43926")), Checksum::broken);
  EXPECT_EQ(verify_checksum(bytes_of("123456789\nCRC-32 cbf43927")), Checksum::broken);
  EXPECT_EQ(verify_checksum(bytes_of("123456789\nCRC-32 cbf4392")), Checksum::none);
  EXPECT_EQ(verify_checksum(bytes_of("123456789")), Checksum::none);
  EXPECT_EQ(verify_checksum({}), Checksum::none);
  EXPECT_EQ(verify_checksum(bytes_of("\nCRC-32 00000000")), Checksum::intact);  // nothing sealed
}

}  // namespace
}  // namespace dullcast::storage
