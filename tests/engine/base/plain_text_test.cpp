#include "engine/base/plain_text.hpp"

#include <gtest/gtest.h>

namespace dullcast::base {
namespace {

TEST(PlainText, UnicodeStandardTable37TellsWhatIsUtf8) {
  // The Unicode Standard 15, table 3-7 (well-formed byte sequences) and its examples of ill-formed ones.
  for (const std::string_view good :
       {"", "flint", "caf\xC3\xA9", "\xE2\x82\xAC", "\xF0\x9F\xAA\xA8", "\xEF\xBF\xBD"})
    EXPECT_EQ(first_not_utf8(good), std::string_view::npos) << good;
  EXPECT_EQ(first_not_utf8("ab\xFFzz"), 2u);
  EXPECT_EQ(first_not_utf8("\xC0\xAF"), 0u);          // overlong solidus
  EXPECT_EQ(first_not_utf8("x\xE0\x80\xAF"), 1u);     // overlong in three bytes
  EXPECT_EQ(first_not_utf8("\xED\xA0\x80"), 0u);      // surrogate
  EXPECT_EQ(first_not_utf8("\xF4\x90\x80\x80"), 0u);  // past U+10FFFF
  EXPECT_EQ(first_not_utf8("ok\xE2\x82"), 2u);        // cut off
}

TEST(PlainText, WhatATerminalWouldActOnIsToldInstead) {
  EXPECT_EQ(plain("West well, caf\xC3\xA9 \xC2\xB0"), "West well, caf\xC3\xA9 \xC2\xB0");
  EXPECT_EQ(plain("a\nb\tc\r"), "a\\nb\\tc\\x0d");
  EXPECT_EQ(plain("\x1b[31mred"), "\\x1b[31mred");
  EXPECT_EQ(plain("\xC2\x9B"
                  "2J"),
            "\\xc2\\x9b2J");  // the one-character form of escape [
  // Right-to-left override. NOLINTNEXTLINE(misc-misleading-bidirectional):
  EXPECT_EQ(plain("\xE2\x80\xAEgnp.exe"), "\\xe2\\x80\\xaegnp.exe");
  EXPECT_EQ(plain("a\xFFz"), "a\\xffz");
  EXPECT_TRUE(is_plain("7 7/8 in \xE2\x82\xAC"));
  for (const std::string_view bad : {"a\nb", "\x7f", "\xC2\x85", "\xE2\x80\xA8", "\xFF"})
    EXPECT_FALSE(is_plain(bad));
}

TEST(PlainText, Rfc4180QuotesWhatNeedsThem) {
  EXPECT_EQ(csv_cell("shale"), "shale");
  EXPECT_EQ(csv_cell("shale, soft"), "\"shale, soft\"");
  EXPECT_EQ(csv_cell("6\" pipe"), "\"6\"\" pipe\"");
  EXPECT_EQ(csv_cell("two\nlines"), "two\\nlines");
}

TEST(PlainText, NoCellIsAFormulaAndNumbersStayNumbers) {
  EXPECT_EQ(csv_cell("=1+1"), "'=1+1");
  EXPECT_EQ(csv_cell("@sum"), "'@sum");
  EXPECT_EQ(csv_cell("-cmd|x"), "'-cmd|x");
  EXPECT_EQ(csv_cell("+cmd, x"), "\"'+cmd, x\"");
  for (const std::string_view number : {"-2.5", "+3", "-1e-4", "-inf"}) EXPECT_EQ(csv_cell(number), number);
}

}  // namespace
}  // namespace dullcast::base
