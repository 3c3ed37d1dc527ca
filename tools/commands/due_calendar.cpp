#include "tools/commands/due_calendar.hpp"

#include <libical/ical.h>

#include <cstdio>
#include <filesystem>
#include <memory>
#include <new>

#include "engine/base/plain_text.hpp"
#include "engine/base/program_version.hpp"
#include "engine/base/text_number.hpp"
#include "engine/pages/run_words.hpp"
#include "engine/pages/shop_clock.hpp"
#include "engine/pages/shop_words.hpp"

namespace dullcast::commands {
namespace {

using storage::ShopOutlook;

struct FreeComponent {
  void operator()(icalcomponent* component) const { icalcomponent_free(component); }
};
using Component = std::unique_ptr<icalcomponent, FreeComponent>;

Component new_component(icalcomponent_kind kind) {
  Component component(icalcomponent_new(kind));
  if (!component) throw std::bad_alloc();
  return component;
}

/// The component owns the property from here on.
void add(const Component& component, icalproperty* property) {
  if (property == nullptr) throw std::bad_alloc();
  icalcomponent_add_property(component.get(), property);
}

icaltimetype all_day(base::CivilDay day) {
  const base::CalendarDate its = base::calendar_date(day);
  icaltimetype time = icaltime_null_date();
  time.year = its.year;
  time.month = its.month;
  time.day = its.day;
  return time;
}

/// Puts entries into one calendar.
class DueCalendar {
 public:
  DueCalendar(const ShopOutlook& outlook, std::int64_t stamp)
      : outlook_(outlook),
        clock_(outlook),
        stamp_(stamp),
        calendar_(new_component(ICAL_VCALENDAR_COMPONENT)) {
    add(calendar_, icalproperty_new_version("2.0"));
    const std::string made_by = "-//dullcast//dullcast " + base::program_version() + "//EN";
    add(calendar_, icalproperty_new_prodid(made_by.c_str()));
    add(calendar_, icalproperty_new_calscale("GREGORIAN"));
  }

  void add_bit(const storage::BitOutlook& bit) {
    if (!(bit.due_probability > 0.0)) return;
    std::string text = "The chance that rework falls due, or the bit fails, within the plan is " +
                       pages::percent_words(bit.due_probability) + ".\nIf so: one time in ten before " +
                       clock_.day_text(bit.due.low) + ", half by " + clock_.day_text(bit.due.middle) +
                       ", one in ten after " + clock_.day_text(bit.due.high) + ".";
    const std::string rule = pages::due_rule_words(bit.due_rule);
    if (!rule.empty()) text += "\nMost often by the rule: " + rule + ".";
    if (bit.due_after_hole >= 0) text += "\nMost often in hole " + hole_name(bit.due_after_hole) + ".";
    add_entry("due", bit.name,
              "Bit " + bit.name + ": rework due (" + pages::percent_words(bit.due_probability) + ")", text,
              bit.due.middle);
  }

  void add_pull(const storage::EarlyPull& pull) {
    const std::string bit = outlook_.bits.at(static_cast<std::size_t>(pull.bit)).name,
                      hole = hole_name(pull.after_hole);
    add_entry(
        "early", bit + "\n" + hole, "Bit " + bit + ": call in early, after hole " + hole,
        "Before it is due. In the futures that were tried this " +
            pages::pull_words(pull, outlook_.currency) +
            " (\xc2\xb1 is two standard errors).\nShare of futures in which it drills that hole and is not "
            "due: " +
            pages::percent_words(pull.in_use) + ".",
        pull.at);
  }

  void add_late_hole(const storage::HoleOutlook& hole) {
    if (!(hole.late_probability > 0.5)) return;
    add_entry("late", hole.name + "\n" + hole.rig,
              "Hole " + hole.name + ": likely to begin late for want of a bit (" +
                  pages::percent_words(hole.late_probability) + ")",
              "Rig: " + hole.rig + ". It is booked for " + clock_.minute_text(hole.booked) +
                  ".\nThe rig stands " + pages::hours_words(hole.late.middle) +
                  " of its own hours in the middle, " + pages::hours_words(hole.late.high) +
                  " one time in ten or more.",
              hole.booked);
  }

  std::string text() const {
    const std::unique_ptr<char, decltype(&icalmemory_free_buffer)> all(
        icalcomponent_as_ical_string_r(calendar_.get()), icalmemory_free_buffer);
    if (!all) throw std::bad_alloc();
    return all.get();
  }

 private:
  std::string hole_name(int hole) const { return outlook_.holes.at(static_cast<std::size_t>(hole)).name; }

  /// `names` tells entries of a kind apart. What has no date is left out.
  void add_entry(const char* kind, const std::string& names, const std::string& summary,
                 const std::string& description, double instant) {
    const auto day = clock_.day(instant);
    if (!day) return;
    Component entry = new_component(ICAL_VEVENT_COMPONENT);
    char uid[64];
    const std::string file = std::filesystem::path(outlook_.file).filename().string();
    std::snprintf(
        uid, sizeof uid, "%s-%016llx@dullcast", kind,
        static_cast<unsigned long long>(base::text_number(file + "\n" + outlook_.title + "\n" + names)));
    add(entry, icalproperty_new_uid(uid));
    icaltimetype stamp =
        icaltime_from_timet_with_zone(static_cast<time_t>(stamp_), 0, icaltimezone_get_utc_timezone());
    add(entry, icalproperty_new_dtstamp(stamp));
    add(entry, icalproperty_new_dtstart(all_day(*day)));
    add(entry, icalproperty_new_summary(base::plain(summary).c_str()));
    const std::string told = base::plain_lines(description) + "\nAn estimate: inspect the bit.";
    add(entry, icalproperty_new_description(told.c_str()));
    add(entry, icalproperty_new_transp(ICAL_TRANSP_TRANSPARENT));
    icalcomponent_add_component(calendar_.get(), entry.release());
  }

  const ShopOutlook& outlook_;
  pages::ShopClock clock_;
  std::int64_t stamp_;
  Component calendar_;
};

}  // namespace

std::string due_calendar(const ShopOutlook& outlook, std::int64_t stamp) {
  DueCalendar calendar(outlook, stamp);
  for (const storage::BitOutlook& bit : outlook.bits) calendar.add_bit(bit);
  for (const storage::EarlyPull& pull : outlook.early_pulls) calendar.add_pull(pull);
  for (const storage::HoleOutlook& hole : outlook.holes) calendar.add_late_hole(hole);
  return calendar.text();
}

}  // namespace dullcast::commands
