#include "engine/shop/stations_reader.hpp"

#include "engine/shop/time_reader.hpp"

namespace dullcast::shop {
namespace {

constexpr int most_benches = 1000, most_pieces = 1'000'000;
constexpr base::Range cutter_range{1e-3, 0.1, true, "from 1 to 100 mm"};

const std::vector<std::string>& works_on_words() {
  static const std::vector<std::string> words{"every bit", "cutters", "pockets"};
  return words;
}

Station read_station(input::MapReader& map, std::map<std::string, int>& met,
                     std::optional<std::vector<Shift>>& own) {
  Station station;
  station.name = own_name(map, "name", "braze", met);
  station.benches = map.whole_number("benches", 1, most_benches).value_or(1);
  station.works_on = static_cast<WorksOn>(map.choice("works_on", works_on_words()).value_or(0));
  if (!map.has("works_on")) map.error("works_on", "is missing; write every bit, cutters or pockets");
  const auto task = read_duration(map, "time");
  station.a_piece = read_duration(map, "time_a_piece");
  if (!map.has("time") && !map.has("time_a_piece"))
    map.error("time", "is missing; write time: 45 min, or {low: 30 min, central: 45 min, high: 90 min}");
  station.task = task.value_or(Duration{});
  if (map.has("time_a_piece") && station.works_on == WorksOn::every_bit)
    map.error("time_a_piece",
              "belongs to a station that works on cutters or pockets; this one has a bit as a whole");
  station.takes_cutters = map.yes_or_no("takes_cutters").value_or(false);
  if (station.takes_cutters && station.works_on != WorksOn::cutters)
    map.error("takes_cutters", "belongs to a station that works on cutters");
  own = read_shifts(map, "shifts");
  map.finish();
  return station;
}

void read_stations(input::MapReader& map, const std::optional<std::vector<Shift>>& usual, ShopSection& shop) {
  const auto& items = map.list("stations");
  std::map<std::string, int> met;
  int takers = 0;
  bool mends = false;
  for (std::size_t i = 0; i < items.size(); ++i) {
    input::MapReader its(items[i], map.path_of("stations") + "." + std::to_string(i), map.reading(),
                         map.location());
    std::optional<std::vector<Shift>> own;
    Station station = read_station(its, met, own);
    if (!own && !usual)
      its.error("shifts",
                "is missing, and the shop has none; write shifts: [monday to friday 07:00 to 15:30]");
    if (station.takes_cutters && ++takers == 2)
      its.error("takes_cutters",
                "is yes at an earlier station already; new cutters are taken at one of them");
    mends = mends || station.works_on == WorksOn::cutters;
    shop.shifts.push_back(own ? *own : usual.value_or(std::vector<Shift>{}));
    shop.stations.push_back(std::move(station));
  }
  if (items.empty() && !(map.has("stations") && map.reading().problems.any_error()))
    map.error("stations", "is missing; list the shop's stations in the order in which bits pass them");
  if (!items.empty() && !mends)
    map.error(
        "stations",
        "has no station that works on cutters, so no bit could be repaired; write works_on: cutters where "
        "they are put in");
}

CutterStock read_stock(input::MapReader& map, std::map<std::string, int>& met, const PlanReading& plan) {
  CutterStock stock;
  stock.name = own_name(map, "cutter", "1313 standard", met);
  stock.diameter = map.required("diameter", base::dimension::length, cutter_range, "13 mm");
  stock.grade = map.word("grade").value_or("");
  if (map.has("grade"))
    input::named_record(map, "grade", "cutter grade", stock.grade, plan.library.grades);
  else
    map.error("grade", "is missing; write a cutter grade of the library, such as standard");
  if (!map.has("on_hand")) map.error("on_hand", "is missing; write how many there are on the first day");
  stock.on_hand = map.whole_number("on_hand", 0, most_pieces).value_or(0);
  stock.reorder_at = map.whole_number("reorder_at", 0, most_pieces).value_or(0);
  stock.order = map.whole_number("order", 0, most_pieces).value_or(0);
  const auto lead = read_duration(map, "lead_time");
  stock.lead_time = lead.value_or(Duration{});
  if (stock.order > 0 && !map.has("lead_time"))
    map.error("lead_time", "is missing; write how long an order takes, such as 21 d");
  if (stock.order == 0 && map.has("reorder_at"))
    map.error("order", "is missing; write how many are ordered when reorder_at is come down to");
  map.finish();
  return stock;
}

void read_cutters(input::MapReader& shop_map, PlanReading& plan, ShopSection& shop) {
  static const input::TableKeys keys{
      {"cutter", "diameter", "grade", "on_hand", "reorder_at", "order", "lead_time"},
      {"diameter", "lead_time"}};
  const PlanRows rows = plan_rows(shop_map, "cutters", keys, plan);
  std::map<std::string, int> met;
  for (std::size_t i = 0; i < rows.rows.size(); ++i) {
    input::MapReader map(rows.rows[i], rows.path(i), shop_map.reading(), rows.location);
    CutterStock stock = read_stock(map, met, plan);
    if (const auto same = stock_of(shop.cutters, stock.diameter, stock.grade))
      map.error("cutter", "has the diameter and grade of " + input::quoted_text(shop.cutters[*same].name) +
                              "; put the two together");
    shop.cutters.push_back(std::move(stock));
  }
}

}  // namespace

ShopSection read_shop(input::MapReader& top, PlanReading& plan) {
  ShopSection shop;
  if (!top.has("shop")) top.error("shop", "is missing; write shop: with shifts: and stations:");
  input::MapReader map = top.map("shop");
  const auto shifts = read_shifts(map, "shifts");
  shop.off = read_days_off(map, "holidays").value_or(std::vector<DaysOff>{});
  shop.order = static_cast<QueueOrder>(map.choice("order", {"first come", "needed first"}).value_or(0));
  read_stations(map, shifts, shop);
  read_cutters(map, plan, shop);
  map.finish();
  for (std::size_t i = 0; i < shop.stations.size(); ++i)
    shop.stations[i].open = shift_calendar(shop.shifts[i], shop.off, plan.days);
  return shop;
}

Changes read_changes(input::MapReader& top, const ShopSection& shop, const PlanReading& plan) {
  Changes changes;
  input::MapReader map = top.map("changes");
  changes.one_more_bench = map.yes_or_no("one_more_bench").value_or(changes.one_more_bench);
  changes.one_more_bit = map.yes_or_no("one_more_bit").value_or(changes.one_more_bit);
  if (map.has("more_shift")) {
    input::MapReader more = map.map("more_shift");
    changes.more_shift = more.word("name").value_or("more shifts");
    const auto shifts = read_shifts(more, "shifts");
    if (!more.has("shifts"))
      more.error("shifts", "is missing; write the shifts that every station would work more");
    more.finish();
    for (std::vector<Shift> all : shop.shifts) {
      if (shifts) all.insert(all.end(), shifts->begin(), shifts->end());
      changes.with_more_shift.push_back(shift_calendar(all, shop.off, plan.days));
    }
  }
  map.finish();
  return changes;
}

}  // namespace dullcast::shop
