#include <gtest/gtest.h>

#include <fstream>
#include <sstream>

#include "engine/input/units.hpp"
#include "tools/page_engine/unit_texts.hpp"

namespace dullcast::page_engine {
namespace {

TEST(UnitTable, IsWhatUdunits2Says) {
  std::ifstream in(std::string(DULLCAST_SOURCE_DIR) + "/tools/page_engine/wasm/unit_table.inc");
  std::ostringstream kept;
  kept << in.rdbuf();
  EXPECT_EQ(kept.str(), unit_table_text(unit_answers())) << "write it anew: build/page-answers --units";
}

TEST(UnitTable, LinesGiveWhatTheParserGives) {
  // A straight line per unit: what a page computes from the table is what the program reads.
  const input::UnitParser parser;
  const auto answer = [](const std::string& words) {
    for (const UnitAnswer& one : unit_answers()) {
      if (one.words == words) return one;
    }
    throw std::logic_error(words);
  };
  const UnitAnswer pound = answer("lbf"), celsius = answer("degC");
  EXPECT_EQ(6750.0 * pound.factor + pound.offset, parser.parse("6750 lbf", base::dimension::force));
  EXPECT_EQ(350.0 * celsius.factor + celsius.offset, parser.parse("350 C", base::dimension::temperature));
  EXPECT_DOUBLE_EQ(pound.factor, 4.4482216152605);  // NIST SP 811, appendix B
}

}  // namespace
}  // namespace dullcast::page_engine
