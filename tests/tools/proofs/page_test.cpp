#include "tools/proofs/page.hpp"

#include <gtest/gtest.h>

#include <stdexcept>

namespace dullcast::proofs {
namespace {

const std::string page =
    "Before.\n<!-- heat: written by build/proofs -->\nold\n<!-- end of heat -->\nBetween.\n"
    "<!-- other: written by build/proofs -->\n<!-- end of other -->\nAfter.\n";

TEST(PagePart, ReplacesWhatStandsBetweenItsOwnMarksOnly) {
  const std::string made = with_part(page, "heat", "new\nlines\n");
  EXPECT_EQ(made,
            "Before.\n<!-- heat: written by build/proofs -->\nnew\nlines\n<!-- end of heat -->\nBetween.\n"
            "<!-- other: written by build/proofs -->\n<!-- end of other -->\nAfter.\n");
  EXPECT_EQ(with_part(made, "heat", "old\n"), page) << "written again it is as before";
}

TEST(PagePart, NamesTheMarkThatIsMissing) {
  const auto said = [](const std::string& text) -> std::string {
    try {
      with_part(text, "heat", "");
    } catch (const std::runtime_error& error) {
      return error.what();
    }
    return "";
  };
  EXPECT_EQ(said("nothing"), "has no line \"<!-- heat: written by build/proofs -->\"");
  EXPECT_EQ(said("<!-- end of heat -->\n<!-- heat: written by build/proofs -->\n"),
            "has no line \"<!-- end of heat -->\" after the part begins");
}

TEST(TableRow, EscapesTheBarsOfItsCells) {
  EXPECT_EQ(table_row({"a|b", ""}), "| a\\|b |  |\n");
  EXPECT_EQ(table_head({"a", "b"}), "| a | b |\n|---|---|\n");
}

}  // namespace
}  // namespace dullcast::proofs
