#include "engine/input/csv_table.hpp"

#include <gtest/gtest.h>

#include "engine/input/reading.hpp"

// Tables as spreadsheets write them (RFC 4180 and the ways in which they differ from it).
namespace dullcast::input {
namespace {

using Row = std::vector<std::string>;

Row cell_texts(const std::vector<CsvCell>& cells) {
  Row result;
  for (const CsvCell& cell : cells) result.push_back(cell.text);
  return result;
}

CsvTable table_of(const std::string& text) {
  Problems problems;
  CsvTable table = read_csv(text, "shelf.csv", problems);
  EXPECT_FALSE(problems.any_error()) << problems.errors().front().message();
  return table;
}

std::vector<std::string> complaints(const std::string& text) {
  Problems problems;
  read_csv(text, "shelf.csv", problems);
  std::vector<std::string> messages;
  for (const Warning& error : problems.errors()) messages.push_back(error.message());
  return messages;
}

TEST(CsvTable, QuotesHoldSeparatorsEndsOfLinesAndQuotes) {
  const CsvTable table = table_of("bit,note\r\n\"K-1\",\"a, \"\"b\"\"\r\nand c\"\r\nK-2,\r\n");
  EXPECT_EQ(cell_texts(table.header), (Row{"bit", "note"}));
  ASSERT_EQ(table.rows.size(), 2u);
  EXPECT_EQ(cell_texts(table.rows[0]), (Row{"K-1", "a, \"b\"\nand c"}));
  EXPECT_EQ(cell_texts(table.rows[1]), (Row{"K-2", ""}));
  EXPECT_EQ(table.rows[1][0].line, 4) << "the end of a line within quotes counts";
  EXPECT_EQ(table.rows[0][1].column, 7);
}

TEST(CsvTable, TheSeparatorIsTheOneOfTheFirstLine) {
  EXPECT_EQ(table_of("bit;note\nK-1;a, b, c, d\n").separator, ';');
  EXPECT_EQ(table_of("bit\tnote\nK-1\ta\n").separator, '\t');
  EXPECT_EQ(table_of("bit,\"x;y;z\"\n").separator, ',');
  const CsvTable told = table_of("\xef\xbb\xbfsep=;\r\nbit;note\r\nK-1;x\r\n");
  EXPECT_EQ(told.separator, ';');
  EXPECT_EQ(cell_texts(told.header), (Row{"bit", "note"}));
  EXPECT_EQ(told.rows[0][0].line, 3);
}

TEST(CsvTable, AMarkOfByteOrderOldLineEndsAndRowsOfBlanksAreNothing) {
  const CsvTable table = table_of(
      "\xef\xbb\xbf"
      "bit, note \rK-1 ,x\r,,\r\rK-2");
  EXPECT_EQ(cell_texts(table.header), (Row{"bit", "note"}));
  ASSERT_EQ(table.rows.size(), 2u);
  EXPECT_EQ(cell_texts(table.rows[0]), (Row{"K-1", "x"}));
  EXPECT_EQ(cell_texts(table.rows[1]), (Row{"K-2"}));
  EXPECT_EQ(table.rows[1][0].line, 5);
}

TEST(CsvTable, WhatIsNoTableIsToldWithItsPlace) {
  EXPECT_EQ(complaints("bit,note\nK-1,\"never\nclosed\n"),
            Row{"shelf.csv:2:5: opens a quote that is never closed"});
  EXPECT_EQ(complaints("bit,note\nK-1,5\" pipe\n"),
            Row{"shelf.csv:2:6: has a quote inside a cell; put the whole cell in quotes and write each quote "
                "in it twice"});
  EXPECT_EQ(complaints("bit,note\nK-1,\"a\"b\n"),
            Row{"shelf.csv:2:8: stands behind a closed quote; write a quote within a cell twice"});
  const auto longer = complaints("bit,note\nK-1,a,b,c,\n");
  ASSERT_EQ(longer.size(), 2u);
  EXPECT_TRUE(longer[1].starts_with("shelf.csv:2:7: \"b\" stands past the last heading")) << longer[1];
}

}  // namespace
}  // namespace dullcast::input
