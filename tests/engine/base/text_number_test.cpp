#include "engine/base/text_number.hpp"

#include <gtest/gtest.h>

namespace dullcast::base {
namespace {

TEST(TextNumber, IsFnv1aOf64Bits) {
  // Test vectors of the FNV-1a hash (draft-eastlake-fnv, IETF): of nothing, "a" and "foobar"; from memory.
  EXPECT_EQ(text_number(""), 0xcbf29ce484222325U);
  EXPECT_EQ(text_number("a"), 0xaf63dc4c8601ec8cU);
  EXPECT_EQ(text_number("foobar"), 0x85944171f73967e8U);
}

}  // namespace
}  // namespace dullcast::base
