#include "engine/base/zone_rule.hpp"

#include <gtest/gtest.h>

namespace dullcast::base {
namespace {

// The instants at which `TZ=RULE date -d @INSTANT +%z` (GNU coreutils 9.1, glibc 2.36) gives another offset
// than a second before: days counted with and without 29 February in a common and a leap year, hours before
// and past the rule's own day, summer time over the year's end.
TEST(ZoneRule, ChangesWhenTheSystemsOwnClockDoes) {
  const struct {
    const char* rule;
    std::int64_t change, before, after;
  } known[] = {{"EST5EDT,J60/2,300/2", 1930114800, -18000, -14400},
               {"EST5EDT,J60/2,300/2", 1950933600, -14400, -18000},
               {"EST5EDT,J60/2,300/2", 1961737200, -18000, -14400},
               {"EST5EDT,J60/2,300/2", 1982469600, -14400, -18000},
               {"EST5EDT,59/2,J300/2", 1930114800, -18000, -14400},
               {"EST5EDT,59/2,J300/2", 1950847200, -14400, -18000},
               {"EST5EDT,59/2,J300/2", 1961650800, -18000, -14400},
               {"EST5EDT,59/2,J300/2", 1982469600, -14400, -18000},
               {"<+03>-3<+05>-5,M2.5.6/-1:30,M9.1.3/26", 1929468600, 10800, 18000},
               {"<+03>-3<+05>-5,M2.5.6/-1:30,M9.1.3/26", 1946235600, 18000, 10800},
               {"<+03>-3<+05>-5,M2.5.6/-1:30,M9.1.3/26", 1961523000, 10800, 18000},
               {"<+03>-3<+05>-5,M2.5.6/-1:30,M9.1.3/26", 1977685200, 18000, 10800},
               {"AAA-10BBB,M10.1.0,M4.1.0/3", 1933171200, 39600, 36000},
               {"AAA-10BBB,M10.1.0,M4.1.0/3", 1948896000, 36000, 39600},
               {"AAA-10BBB,M10.1.0,M4.1.0/3", 1964620800, 39600, 36000},
               {"AAA-10BBB,M10.1.0,M4.1.0/3", 1980345600, 36000, 39600}};
  for (const auto& each : known) {
    const auto rule = ZoneRule::read(each.rule);
    ASSERT_TRUE(rule) << each.rule;
    EXPECT_EQ(rule->offset_at(each.change - 1), each.before) << each.rule << " " << each.change;
    EXPECT_EQ(rule->offset_at(each.change), each.after) << each.rule << " " << each.change;
    // A gap ends where the change is; of an hour that comes twice the first is meant.
    if (each.after > each.before) {
      EXPECT_EQ(rule->utc_seconds(each.change + each.before), each.change);
      EXPECT_EQ(rule->utc_seconds(each.change + each.after - 1), each.change);
    } else {
      EXPECT_EQ(rule->utc_seconds(each.change + each.after), each.change + each.after - each.before);
    }
    EXPECT_EQ(rule->utc_seconds(each.change - 1 + each.before), each.change - 1);
  }
}

TEST(ZoneRule, WithoutChangesTheClockIsAlwaysTheSame) {
  for (const auto& [text, offset] : {std::pair{"UTC0", 0}, std::pair{"CST6", -21600},
                                     std::pair{"<+0545>-5:45", 20700}, std::pair{"ABC1:02:03", -3723}}) {
    const auto rule = ZoneRule::read(text);
    ASSERT_TRUE(rule) << text;
    EXPECT_EQ(rule->offset_at(0), offset);
    EXPECT_EQ(rule->offset_at(4'000'000'000), offset);
    EXPECT_EQ(rule->utc_seconds(1'000'000 + offset), 1'000'000);
  }
}

TEST(ZoneRule, OtherTextsAreNone) {
  for (const char* text : {"", "CST", "6", "CS6", "CST6CDT", "CST6CDT,M3.2.0", "CST6CDT,M3.2.0,M11.1.0,",
                           "CST6CDT,M13.2.0,M11.1.0", "CST6CDT,M3.6.0,M11.1.0", "CST6CDT,M3.2.7,M11.1.0",
                           "CST6CDT,J0,J300", "CST6CDT,366,300", "CST6CDT,M3.2.0/168,M11.1.0", "<+03-3",
                           "CST6CDT,M3.2.0,M11.1.0x", "CST-", "CST6:60"})
    EXPECT_FALSE(ZoneRule::read(text)) << text;
}

}  // namespace
}  // namespace dullcast::base
