#include "engine/shop/fleet_reader.hpp"

#include <set>

#include "engine/base/words.hpp"
#include "engine/input/bit_reader.hpp"
#include "engine/shop/stations_reader.hpp"
#include "engine/shop/time_reader.hpp"

namespace dullcast::shop {
namespace {

/// Keys by which a scenario's bit says that it is not new.
constexpr std::string_view worn_keys = "starting_";

Rig read_rig(input::MapReader& map, const std::vector<DaysOff>& off, std::map<std::string, int>& met,
             const PlanReading& plan) {
  Rig rig;
  rig.name = own_name(map, "name", "R-1", met);
  if (rig.name == "shop")
    map.error("name", "is what the shop itself is called where bits are; give the rig another name");
  const auto shifts = read_shifts(map, "shifts");
  if (!map.has("shifts"))
    map.error("shifts",
              "is missing; write monday to friday 07:00 to 17:00, or every day "
              "00:00 to 24:00 for a rig that never stands");
  const auto own = read_days_off(map, "holidays");
  rig.open = shift_calendar(shifts.value_or(std::vector<Shift>{}), own ? *own : off, plan.days);
  if (!map.has("travel"))
    map.error("travel", "is missing; write how long a bit is on the road to it, such as 3 h");
  rig.travel = read_time(map, "travel").value_or(0.0);
  rig.asks_ahead = read_time(map, "asks_ahead").value_or(rig.travel);
  map.finish();
  return rig;
}

/// Cutters of a design that the shop has none of on its shelf, once each.
void warn_of_cutters(input::MapReader& map, const scenario::BitRecord& bit,
                     const std::vector<CutterStock>& stock) {
  std::set<std::string> told;
  for (Eigen::Index i = 0; i < bit.layout.count(); ++i) {
    const double diameter = 2.0 * bit.layout.shape(i).radius;
    const std::string& grade = bit.grade_of(i).name;
    const std::string which = base::plain_number(1000.0 * diameter) + " mm, grade " + grade;
    if (!stock_of(stock, diameter, grade) && told.insert(which).second)
      map.warn("bit", "has cutters of " + which +
                          ", which are not among the shop's cutters: they never run out in this plan");
  }
}

WrittenDesign read_design(input::MapReader& map, std::map<std::string, int>& met,
                          const std::vector<CutterStock>& cutters, const PlanReading& plan) {
  WrittenDesign written;
  written.location = map.location();
  written.design.name = own_name(map, "name", "four blade", met);
  if (!map.has("lead_time"))
    map.error("lead_time", "is missing; write how long a new bit takes to come, such as 30 d");
  written.design.lead_time = read_duration(map, "lead_time").value_or(Duration{});
  const std::size_t before = map.reading().problems.error_count();
  if (const input::YamlValue* bit = map.find("bit"); bit && bit->is_map()) {
    written.bit = *bit;
    for (const input::YamlEntry& entry : bit->entries) {
      if (entry.key.starts_with(worn_keys) || entry.key == "continues" || entry.key == "rebuilt")
        map.reading().problems.error(entry.location, map.path_of("bit") + "." + entry.key,
                                     "is of a bit that is not new; say so of single bits, under bits:");
    }
  }
  if (map.reading().problems.error_count() == before) {
    written.design.bit = input::read_bit(map, plan.library, plan.folder);
    written.good = map.reading().problems.error_count() == before;
    if (written.good) warn_of_cutters(map, written.design.bit, cutters);
  }
  map.finish();
  return written;
}

}  // namespace

std::vector<Rig> read_rigs(input::MapReader& top, const std::vector<DaysOff>& off, PlanReading& plan) {
  static const input::TableKeys keys{{"name", "shifts", "holidays", "travel", "asks_ahead"},
                                     {"travel", "asks_ahead"}};
  const PlanRows rows = plan_rows(top, "rigs", keys, plan);
  if (!top.has("rigs")) top.error("rigs", "is missing; list the rigs with their shifts and how far they are");
  std::vector<Rig> rigs;
  std::map<std::string, int> met;
  for (std::size_t i = 0; i < rows.rows.size(); ++i) {
    input::MapReader map(rows.rows[i], rows.path(i), top.reading(), rows.location);
    rigs.push_back(read_rig(map, off, met, plan));
  }
  return rigs;
}

std::vector<WrittenDesign> read_designs(input::MapReader& top, const std::vector<CutterStock>& cutters,
                                        PlanReading& plan) {
  if (!top.has("designs"))
    top.error("designs", "is missing; list the makes of bit, each with name:, bit: and lead_time:");
  const auto& items = top.list("designs");
  std::vector<WrittenDesign> designs;
  std::map<std::string, int> met;
  for (std::size_t i = 0; i < items.size(); ++i) {
    input::MapReader map(items[i], "designs." + std::to_string(i), top.reading(), top.location());
    designs.push_back(read_design(map, met, cutters, plan));
  }
  return designs;
}

}  // namespace dullcast::shop
