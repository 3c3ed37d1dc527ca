#include "tools/commands/shop_csv.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <map>
#include <sstream>

#include "engine/storage/sample_shop.hpp"
#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::Scratch;
using testing::text_of;

/// Cells of comma-separated values with quotes, as RFC 4180 has them.
std::vector<std::vector<std::string>> cells_of(const std::string& text) {
  std::vector<std::vector<std::string>> rows(1, {""});
  bool quoted = false;
  for (std::size_t k = 0; k < text.size(); ++k) {
    const char letter = text[k];
    if (letter == '"' && quoted && k + 1 < text.size() && text[k + 1] == '"')
      rows.back().back() += text[++k];
    else if (letter == '"')
      quoted = !quoted;
    else if (letter == ',' && !quoted)
      rows.back().emplace_back();
    else if (letter == '\n' && !quoted)
      rows.push_back({""});
    else
      rows.back().back() += letter;
  }
  rows.pop_back();
  return rows;
}

using Table = std::vector<std::map<std::string, std::string>>;

template <class Write>
Table table_of(const Write& write, const storage::ShopOutlook& outlook) {
  std::ostringstream out;
  write(out, outlook);
  const auto rows = cells_of(out.str());
  Table table;
  for (std::size_t r = 1; r < rows.size(); ++r) {
    EXPECT_EQ(rows[r].size(), rows[0].size()) << "row " << r;
    table.emplace_back();
    for (std::size_t c = 0; c < rows[0].size() && c < rows[r].size(); ++c)
      EXPECT_TRUE(table.back().emplace(rows[0][c], rows[r][c]).second) << rows[0][c] << " stands twice";
  }
  return table;
}

TEST(ShopCsv, AWeekHasItsMondayBitsHoursAndCutters) {
  const storage::ShopOutlook outlook = storage::sample::shop();
  const Table table = table_of(write_shop_weeks, outlook);
  ASSERT_EQ(table.size(), 26u);
  // Clocks go forward between the first week and the seventh.
  EXPECT_EQ(table[0].at("begins"), "2031-03-03");
  EXPECT_EQ(table[6].at("begins"), "2031-04-14");
  EXPECT_EQ(table[6].at("week"), "7");
  const auto number = [&](const std::string& name) { return std::stod(table[6].at(name)); };
  const storage::WeekOutlook& week = outlook.weeks[6];
  EXPECT_NEAR(number("arrivals_mean"), week.arrivals.mean, 1e-8);
  EXPECT_NEAR(number("arrivals_high"), week.arrivals.high, 1e-8);
  EXPECT_NEAR(number("arrivals_rebuild_pockets"), week.by_class[2], 1e-8);
  EXPECT_NEAR(number("holes_late_mean"), week.holes_late.mean, 1e-8);
  EXPECT_NEAR(number("braze in: hours_needed_middle"), outlook.stations[3].weeks[6].work.middle / 3600.0,
              1e-6);
  EXPECT_EQ(table[6].at("grind and gauge: hours_open"), "80");
  EXPECT_NEAR(number("13 mm premium: needed_high"), outlook.cutters[0].weeks[6].needed.high, 1e-8);
  EXPECT_NEAR(number("13 mm premium: stock_out"), outlook.cutters[0].weeks[6].stock_out, 1e-8);
}

TEST(ShopCsv, ABitHasItsDatesAndWhatIsNotKnownIsEmpty) {
  storage::ShopOutlook outlook = storage::sample::shop();
  outlook.bits[0].name = "LM,101 \"old\"";
  outlook.bits[0].due = {0.0, 27.5 * 86400.0, 29.0 * 86400.0, 31.0 * 86400.0};
  const double nan = std::nan("");
  outlook.bits[1].due = {nan, nan, nan, nan};
  outlook.bits[1].due_after_hole = -1;
  const Table table = table_of(write_shop_bits, outlook);
  ASSERT_EQ(table.size(), 12u);
  EXPECT_EQ(table[0].at("bit"), "LM,101 \"old\"");
  EXPECT_EQ(table[0].at("due_low"), "2031-03-30");
  EXPECT_EQ(table[0].at("due_middle"), "2031-04-01");
  EXPECT_EQ(table[1].at("due_middle"), "");
  EXPECT_EQ(table[1].at("due_after_hole"), "");
  EXPECT_NEAR(std::stod(table[2].at("share_scrap")), outlook.bits[2].by_class[3], 1e-8);
  EXPECT_NEAR(std::stod(table[2].at("metres_low")), outlook.bits[2].metres.low, 1e-8);
}

TEST(ShopCsv, AHoleHasHoursItStandsAndTheBitThatLikeliestBeginsIt) {
  storage::ShopOutlook outlook = storage::sample::shop();
  outlook.holes[4].late = {7200.0, 0.0, 3600.0, 18000.0};
  outlook.holes[4].booked = 86400.0 + 7.0 * 3600.0;
  outlook.holes[4].by_bit.assign(12, 0.02);
  outlook.holes[4].by_bit[6] = 0.4;
  outlook.holes[5].by_bit.assign(12, 0.0);
  const Table table = table_of(write_shop_holes, outlook);
  ASSERT_EQ(table.size(), 80u);
  EXPECT_EQ(table[4].at("booked"), "2031-03-04 07:00");
  EXPECT_EQ(table[4].at("late_hours_mean"), "2");
  EXPECT_EQ(table[4].at("late_hours_high"), "5");
  EXPECT_EQ(table[4].at("likeliest_bit"), "LM-107");
  EXPECT_EQ(table[4].at("likeliest_share"), "0.4");
  EXPECT_EQ(table[5].at("likeliest_bit"), "");
  EXPECT_EQ(table[5].at("likeliest_share"), "");
}

TEST(ShopCsv, ChangesAndPullsAreTold) {
  const storage::ShopOutlook outlook = storage::sample::shop();
  const Table table = table_of(write_shop_changes, outlook);
  ASSERT_EQ(table.size(), outlook.changes.size() + 2);
  EXPECT_EQ(table[3].at("kind"), "more bench");
  EXPECT_EQ(table[3].at("name"), "braze in");
  EXPECT_NEAR(std::stod(table[3].at("standing_hours_more")), outlook.changes[3].late_time_more / 3600.0,
              1e-6);
  EXPECT_EQ(table.back().at("kind"), "called in early");
  EXPECT_EQ(table.back().at("name"), "LM-110");
  EXPECT_EQ(table.back().at("money_more"), "-700");
  EXPECT_EQ(table.back().at("currency"), "EUR");
}

TEST(ShopCsv, FourFilesStandBesideTheNameThatWasGiven) {
  const Scratch scratch;
  const std::string file = (scratch / "my.shop.csv").string();
  write_shop_csv(file, storage::sample::shop());
  const std::vector<std::string> files = shop_csv_files(file);
  const std::vector<std::string> expected = {
      (scratch / "my.shop_weeks.csv").string(), (scratch / "my.shop_bits.csv").string(),
      (scratch / "my.shop_holes.csv").string(), (scratch / "my.shop_changes.csv").string()};
  EXPECT_EQ(files, expected);
  std::ostringstream holes;
  write_shop_holes(holes, storage::sample::shop());
  EXPECT_EQ(text_of(files[2]), holes.str());
  EXPECT_EQ(shop_csv_files("shop.csv").front(), "shop_weeks.csv");
}

TEST(ShopCsv, NamesThatASpreadsheetWouldTakeForFormulasAreDisarmed) {
  storage::ShopOutlook outlook = storage::sample::shop();
  outlook.bits[0].name = "=1+1";
  std::ostringstream out;
  write_shop_bits(out, outlook);
  EXPECT_NE(out.str().find("\n'=1+1,"), std::string::npos);
}

}  // namespace
}  // namespace dullcast::commands
