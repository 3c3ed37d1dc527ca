#include "tools/commands/shop_csv.hpp"

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <ostream>
#include <sstream>

#include "engine/base/output_place.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/pages/shop_clock.hpp"
#include "engine/pages/shop_words.hpp"
#include "engine/storage/shop_format.hpp"

namespace dullcast::commands {
namespace {

using storage::ShopOutlook;
using storage::Spread;

constexpr double an_hour = 3600.0;

/// A row of cells.
class ShopRow {
 public:
  ShopRow& text(const std::string& words) { return cell(base::csv_cell(words)); }
  ShopRow& number(double value) {
    char shown[32] = "";
    if (std::isfinite(value)) std::snprintf(shown, sizeof shown, "%.9g", value);
    return cell(shown);
  }
  ShopRow& spread(const Spread& of, double unit = 1.0) {
    return number(of.mean / unit).number(of.low / unit).number(of.middle / unit).number(of.high / unit);
  }
  ShopRow& days(const pages::ShopClock& clock, const Spread& of) {
    return text(clock.day_text(of.low)).text(clock.day_text(of.middle)).text(clock.day_text(of.high));
  }
  /// Names of a spread's columns.
  ShopRow& heads(const std::string& name) {
    for (const char* end : {"_mean", "_low", "_middle", "_high"}) text(name + end);
    return *this;
  }
  ShopRow& day_heads(const std::string& name) {
    for (const char* end : {"_low", "_middle", "_high"}) text(name + end);
    return *this;
  }
  void end(std::ostream& out) {
    out << line_ << "\n";
    line_.clear();
    begun_ = false;
  }

 private:
  ShopRow& cell(const std::string& shown) {
    line_ += (begun_ ? "," : "") + shown;
    begun_ = true;
    return *this;
  }
  std::string line_;
  bool begun_ = false;
};

template <class Told>
void difference(ShopRow& row, const Told& told) {
  row.number(told.late_holes_more).number(told.late_holes_error);
  row.number(told.late_time_more / an_hour).number(told.late_time_error / an_hour);
  row.number(told.total_more).number(told.total_error);
}

}  // namespace

void write_shop_weeks(std::ostream& out, const ShopOutlook& outlook) {
  const pages::ShopClock clock(outlook);
  ShopRow row;
  row.text("week").text("begins").heads("arrivals");
  for (const char* name : storage::shop_format::repair_names) row.text(std::string("arrivals_") + name);
  row.heads("holes_late");
  for (const storage::StationOutlook& station : outlook.stations)
    row.heads(station.name + ": hours_needed")
        .text(station.name + ": hours_open")
        .text(station.name + ": waiting");
  for (const storage::CutterOutlook& cutter : outlook.cutters)
    row.heads(cutter.name + ": needed").text(cutter.name + ": stock_out");
  row.end(out);
  for (std::size_t w = 0; w < outlook.weeks.size(); ++w) {
    const storage::WeekOutlook& week = outlook.weeks[w];
    row.text(std::to_string(w + 1)).text(clock.day_text(week.begin)).spread(week.arrivals);
    for (const double bits : week.by_class) row.number(bits);
    row.spread(week.holes_late);
    for (const storage::StationOutlook& station : outlook.stations) {
      const storage::StationWeek& one = station.weeks.at(w);
      row.spread(one.work, an_hour).number(one.open / an_hour).number(one.waiting);
    }
    for (const storage::CutterOutlook& cutter : outlook.cutters)
      row.spread(cutter.weeks.at(w).needed).number(cutter.weeks.at(w).stock_out);
    row.end(out);
  }
}

void write_shop_bits(std::ostream& out, const ShopOutlook& outlook) {
  const pages::ShopClock clock(outlook);
  ShopRow row;
  row.text("bit").text("design").text("told_by").text("due_probability").day_heads("due");
  row.text("due_after_hole").text("due_rule");
  for (const char* name : storage::shop_format::repair_names) row.text(std::string("share_") + name);
  row.heads("metres").heads("shop_visits").end(out);
  for (const storage::BitOutlook& bit : outlook.bits) {
    row.text(bit.name).text(bit.design).text(bit.told_by).number(bit.due_probability).days(clock, bit.due);
    row.text(bit.due_after_hole < 0 ? ""
                                    : outlook.holes.at(static_cast<std::size_t>(bit.due_after_hole)).name);
    row.text(bit.due_rule);
    for (const double share : bit.by_class) row.number(share);
    row.spread(bit.metres).spread(bit.shop_visits).end(out);
  }
}

void write_shop_holes(std::ostream& out, const ShopOutlook& outlook) {
  const pages::ShopClock clock(outlook);
  ShopRow row;
  row.text("hole").text("rig").text("design").text("booked").text("late_probability").heads("late_hours");
  row.day_heads("begun").day_heads("finished").text("unfinished").text("due_in_it").text("bits_fetched");
  row.text("likeliest_bit").text("likeliest_share").end(out);
  for (const storage::HoleOutlook& hole : outlook.holes) {
    row.text(hole.name).text(hole.rig).text(hole.design).text(clock.minute_text(hole.booked));
    row.number(hole.late_probability).spread(hole.late, an_hour);
    row.days(clock, hole.begun).days(clock, hole.finished);
    row.number(hole.unfinished).number(hole.due_in_it).number(hole.fetched);
    const auto bit = pages::likeliest_bit(hole);
    row.text(bit ? outlook.bits.at(*bit).name : "").number(bit ? hole.by_bit[*bit] : NAN).end(out);
  }
}

void write_shop_changes(std::ostream& out, const ShopOutlook& outlook) {
  const pages::ShopClock clock(outlook);
  ShopRow row;
  row.text("kind").text("name").text("after_hole").text("at");
  for (const char* name : {"late_holes", "standing_hours", "money"})
    row.text(std::string(name) + "_more").text(std::string(name) + "_error");
  row.text("currency").end(out);
  for (const storage::ChangeOutlook& change : outlook.changes) {
    row.text("more " + change.kind).text(change.name).text("").text("");
    difference(row, change);
    row.text(outlook.currency).end(out);
  }
  for (const storage::EarlyPull& pull : outlook.early_pulls) {
    row.text("called in early").text(outlook.bits.at(static_cast<std::size_t>(pull.bit)).name);
    row.text(outlook.holes.at(static_cast<std::size_t>(pull.after_hole)).name).text(clock.day_text(pull.at));
    difference(row, pull);
    row.text(outlook.currency).end(out);
  }
}

std::vector<std::string> shop_csv_files(const std::string& file) {
  const std::filesystem::path path = file;
  std::vector<std::string> files;
  for (const char* table : {"_weeks", "_bits", "_holes", "_changes"}) {
    const std::string name = path.stem().string() + table + path.extension().string();
    files.push_back((path.parent_path() / name).string());
  }
  return files;
}

void write_shop_csv(const std::string& file, const ShopOutlook& outlook) {
  constexpr std::array tables{write_shop_weeks, write_shop_bits, write_shop_holes, write_shop_changes};
  const std::vector<std::string> files = shop_csv_files(file);
  for (std::size_t k = 0; k < tables.size(); ++k) {
    std::ostringstream text;
    tables[k](text, outlook);
    base::write_text(files[k], text.str());
  }
}

}  // namespace dullcast::commands
