#include "tools/commands/due_calendar.hpp"

#include <gtest/gtest.h>

#include <limits>
#include <nlohmann/json.hpp>
#include <set>
#include <stdexcept>

#include "engine/base/plain_text.hpp"
#include "engine/storage/sample_shop.hpp"
#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::has;
using testing::Scratch;
using testing::text_of;
using testing::word;

constexpr std::int64_t stamp = 1926072000;  // 2031-01-13 12:00 UTC

/// What Python's icalendar, which knows nothing of us, reads of a calendar: one object an entry.
nlohmann::json read_elsewhere(const std::string& calendar) {
  const Scratch scratch;
  const std::string file = scratch.write("due.ics", calendar), told = (scratch / "told.json").string();
  const std::string command =
      std::string("/usr/bin/python3 ") +
      word(std::string(DULLCAST_SOURCE_DIR) + "/tests/tools/commands/read_calendar.py") + " " + word(file) +
      " > " + word(told) + " 2>&1";
  if (std::system(command.c_str()) != 0) throw std::runtime_error(text_of(told));
  return nlohmann::json::parse(text_of(told));
}

/// A plan of one bit that falls due at noon of its 40th day, if it does, and one hole.
storage::ShopOutlook small_outlook() {
  storage::ShopOutlook outlook = storage::sample::shop();
  outlook.bits.resize(1);
  outlook.holes.resize(1);
  outlook.early_pulls.clear();
  constexpr double day = 86400.0;
  outlook.bits[0].due = {40.0 * day, 33.5 * day, 39.5 * day, 51.5 * day};
  outlook.bits[0].due_probability = 0.93;
  outlook.bits[0].due_after_hole = 0;
  outlook.bits[0].due_rule = "worn_height";
  outlook.holes[0].late_probability = 0.0;
  return outlook;
}

TEST(DueCalendar, AnotherProgramReadsTheDaysThatWereMeant) {
  const nlohmann::json read = read_elsewhere(due_calendar(small_outlook(), stamp));
  EXPECT_EQ(read.at("version"), "2.0");
  EXPECT_TRUE(has(read.at("prodid"), "dullcast"));
  ASSERT_EQ(read.at("entries").size(), 1u);
  const nlohmann::json& entry = read.at("entries")[0];
  // Day 40 of a plan that begins on 2031-03-03 is 2031-04-11; clocks went forward meanwhile.
  EXPECT_EQ(entry.at("begin"), "2031-04-11");
  EXPECT_TRUE(entry.at("all_day"));
  EXPECT_EQ(entry.at("stamp"), "2031-01-13T12:00:00+00:00");
  EXPECT_EQ(entry.at("transparent"), "TRANSPARENT");
  EXPECT_EQ(entry.at("summary"), "Bit LM-101: rework due (93 %)");
  EXPECT_EQ(entry.at("description"),
            "The chance that rework falls due, or the bit fails, within the plan is 93 %.\n"
            "If so: one time in ten before 2031-04-05, half by 2031-04-11, one in ten after 2031-04-23.\n"
            "Most often by the rule: worn height.\nMost often in hole Lower Meadow 1.\n"
            "An estimate: inspect the bit.");
}

TEST(DueCalendar, TheDayIsTheOneOfThePlaceAndNotOfGreenwich) {
  storage::ShopOutlook outlook = small_outlook();
  outlook.bits[0].due.middle = 39.0 * 86400.0 + 1800.0;  // 01:30 there, 23:30 of the day before in UTC
  EXPECT_EQ(read_elsewhere(due_calendar(outlook, stamp)).at("entries")[0].at("begin"), "2031-04-11");
}

TEST(DueCalendar, OddTextsComeBackAsTheyWere) {
  for (const std::string name :
       {"LM,101; the \"old\" one\\ : \\",
        "H\xc3\xb6"
        "fer gr\xc3\xbc\xc3\x9f"
        "t \xe2\x84\x96\xc2\xa0"
        "7",
        "BEGIN:VEVENT",
        "a name that is so long that it goes over more than one line, and \xc3\xa4\xc3\xb6\xc3\xbc"
        "\xc3\xa4\xc3\xb6\xc3\xbc\xc3\xa4\xc3\xb6\xc3\xbc\xc3\xa4\xc3\xb6\xc3\xbc\xc3\xa4\xc3\xb6"
        "\xc3\xbc\xc3\xa4\xc3\xb6\xc3\xbc\xc3\xa4\xc3\xb6\xc3\xbc\xc3\xa4\xc3\xb6\xc3\xbc too"}) {
    storage::ShopOutlook outlook = small_outlook();
    outlook.bits[0].name = outlook.holes[0].name = name;
    const nlohmann::json entries = read_elsewhere(due_calendar(outlook, stamp)).at("entries");
    ASSERT_EQ(entries.size(), 1u);
    EXPECT_EQ(entries[0].at("summary"), "Bit " + name + ": rework due (93 %)");
    EXPECT_TRUE(has(entries[0].at("description"), "Most often in hole " + name + ".\nAn estimate"));
  }
}

TEST(DueCalendar, ControlCharactersAreToldAndMakeNoLines) {
  storage::ShopOutlook outlook = small_outlook();
  outlook.bits[0].name = "LM\nEND:VEVENT\x1b";
  const std::string calendar = due_calendar(outlook, stamp);
  EXPECT_EQ(read_elsewhere(calendar).at("entries").size(), 1u);
  // "\n" in two letters, its backslash escaped; icalendar 4.0 would read that as the end of a line.
  EXPECT_TRUE(has(calendar, "SUMMARY:Bit LM\\\\nEND:VEVENT\\\\x1b: rework due (93 %)\r\n")) << calendar;
}

TEST(DueCalendar, LinesEndInCrLfHave75OctetsAtMostAndBreakNoCharacter) {
  storage::ShopOutlook outlook = storage::sample::shop();
  outlook.bits[3].name = outlook.holes[21].name = [] {
    std::string name;
    for (int k = 0; k < 200; ++k) name += "\xc3\xb6";
    return name;
  }();
  const std::string calendar = due_calendar(outlook, stamp);
  std::size_t from = 0, lines = 0;
  while (from < calendar.size()) {
    const std::size_t end = calendar.find("\r\n", from);
    ASSERT_NE(end, std::string::npos) << "the last line has no end";
    const std::string line = calendar.substr(from, end - from);
    EXPECT_EQ(line.find_first_of("\r\n"), std::string::npos) << line;
    EXPECT_LE(line.size(), 75u) << line;
    EXPECT_EQ(base::first_not_utf8(line), std::string::npos) << line;
    from = end + 2;
    ++lines;
  }
  EXPECT_GT(lines, 12u * 8u);
}

TEST(DueCalendar, BitsPullsAndLateHolesHaveAnEntryEach) {
  storage::ShopOutlook outlook = storage::sample::shop();
  outlook.bits[7].due_probability = 0.0;
  const double nan = std::numeric_limits<double>::quiet_NaN();
  outlook.bits[7].due = {nan, nan, nan, nan};
  for (storage::HoleOutlook& hole : outlook.holes) hole.late_probability = 0.5;
  outlook.holes[30].late_probability = 0.62;
  outlook.holes[30].late = {7200.0, 0.0, 5400.0, 36000.0};
  const nlohmann::json entries = read_elsewhere(due_calendar(outlook, stamp)).at("entries");
  ASSERT_EQ(entries.size(), 11u + 2u + 1u);
  EXPECT_EQ(entries[11].at("summary"), "Bit LM-104: call in early, after hole Lower Meadow 22");
  EXPECT_EQ(entries[11].at("begin"), "2031-04-27");  // day 55, an hour on by daylight saving
  EXPECT_TRUE(has(entries[11].at("description"), "saves 21 \xc2\xb1 12 h of rigs standing"));
  EXPECT_EQ(entries[13].at("summary"), "Hole Lower Meadow 31: likely to begin late for want of a bit (62 %)");
  EXPECT_TRUE(
      has(entries[13].at("description"), "stands 1.5 h of its own hours in the middle, 10 h one time"));
  std::set<std::string> uids;
  for (const nlohmann::json& entry : entries) uids.insert(entry.at("uid").get<std::string>());
  EXPECT_EQ(uids.size(), entries.size());
}

TEST(DueCalendar, ALaterCalendarOfThePlanReplacesItsEntries) {
  storage::ShopOutlook later = storage::sample::shop();
  later.first_day = "2031-03-10";
  later.begins += 604800;  // a week
  later.file = "/another/folder/lower_meadow_shop.yaml";
  for (storage::BitOutlook& bit : later.bits) bit.due.middle += 86400.0;
  storage::ShopOutlook other = storage::sample::shop();
  other.title = "another plan";
  const auto uids = [](const storage::ShopOutlook& outlook) {
    std::set<std::string> all;
    const nlohmann::json calendar = read_elsewhere(due_calendar(outlook, stamp));
    for (const nlohmann::json& entry : calendar.at("entries")) all.insert(entry.at("uid").get<std::string>());
    return all;
  };
  const std::set<std::string> first = uids(storage::sample::shop());
  EXPECT_EQ(uids(later), first);
  for (const std::string& uid : uids(other)) EXPECT_EQ(first.count(uid), 0u);
}

TEST(DueCalendar, TheSameStampGivesTheSameTextAndAnUnknownZoneIsTold) {
  EXPECT_EQ(due_calendar(storage::sample::shop(), stamp), due_calendar(storage::sample::shop(), stamp));
  storage::ShopOutlook outlook = storage::sample::shop();
  outlook.time_zone = "Nowhere/At_all";
  EXPECT_THROW(due_calendar(outlook, stamp), std::invalid_argument);
}

}  // namespace
}  // namespace dullcast::commands
