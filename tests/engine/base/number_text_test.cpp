#include "engine/base/number_text.hpp"

#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <cstdint>
#include <limits>
#include <random>

namespace dullcast::base {
namespace {

/// Both readings of a text: by the C library, and by the standard library's own std::from_chars.
void expect_read_alike(const std::string& text) {
  double ours = -7.0, theirs = -7.0;
  const char* end = text.data() + text.size();
  const auto by_c = read_number_by_c(text.data(), end, ours);
  const auto by_standard = std::from_chars(text.data(), end, theirs);
  EXPECT_EQ(by_c.ec, by_standard.ec) << text;
  EXPECT_EQ(by_c.ptr - text.data(), by_standard.ptr - text.data()) << text;
  EXPECT_EQ(std::bit_cast<std::uint64_t>(ours), std::bit_cast<std::uint64_t>(theirs)) << text;
}

TEST(NumberText, IsReadAsIso14882SaysOfFromChars) {
  for (const char* text : {"1",       "-1",     "+1",
                           " 1",      "",       "-",
                           ".",       ".5",     "5.",
                           "5.e3",    "1e5",    "1e",
                           "1e+",     "1E-3x",  "0x10",
                           "1.2.3",   "1,5",    "12 in",
                           "7/8",     "1e400",  "-1e400",
                           "1e-400",  "5e-324", "2.2250738585072011e-308",
                           "inf",     "-INF",   "infinity",
                           "Infinit", "nan",    "-0",
                           "0e999",   "0.1",    "9007199254740993",
                           "e5",      "--1",    "i",
                           "3in"})
    expect_read_alike(text);
}

TEST(NumberText, ComesBackToTheLastBit) {
  std::mt19937_64 bits(20);
  for (int k = 0; k < 20000; ++k) {
    const double value = std::bit_cast<double>(bits());
    if (!std::isfinite(value)) continue;
    for (const std::string& text : {exact_number(value), exact_number_by_c(value)}) {
      double read = 0.0;
      ASSERT_EQ(read_number_by_c(text.data(), text.data() + text.size(), read).ec, std::errc()) << text;
      ASSERT_EQ(read, value) << text;
      expect_read_alike(text);
    }
    ASSERT_EQ(exact_number(value), exact_number_by_c(value));
  }
  for (const double value :
       {0.0, -0.0, 0.0004, 2e-4, 7850.0, 0.0009000000000000001, 1e5, 1e22, 1.5e300, 123456.75, 5e-324, 100.0})
    EXPECT_EQ(exact_number(value), exact_number_by_c(value));
  EXPECT_EQ(exact_number_by_c(0.1), "0.1");
  EXPECT_EQ(exact_number_by_c(-2.5e-17), "-2.5e-17");
}

}  // namespace
}  // namespace dullcast::base
