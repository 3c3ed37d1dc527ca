#include "engine/shop/holes_reader.hpp"

#include <algorithm>

#include "engine/shop/hole_scenarios.hpp"
#include "engine/shop/time_reader.hpp"

namespace dullcast::shop {
namespace {

class HolesReader {
 public:
  HolesReader(const std::vector<WrittenDesign>& designs, const std::vector<Rig>& rigs,
              const std::vector<FleetBit>& bits, const input::YamlValue& root, PlanReading& plan)
      : rigs_(rigs), bits_(bits), plan_(plan), scenarios_(designs, root, plan) {
    for (const WrittenDesign& design : designs) design_names_.push_back(design.design.name);
    for (const Rig& rig : rigs) rig_names_.push_back(rig.name);
    for (const FleetBit& bit : bits) bit_names_.push_back(bit.name);
  }

  /// Nothing where a mistake keeps it from being held to anything further.
  std::optional<BookedHole> read(input::MapReader& map) {
    BookedHole hole;
    hole.location = map.location();
    hole.name = own_name(map, "hole", "N-4", met_);
    const auto rig = index_of(map, "rig", "rig", rig_names_);
    if (!map.has("rig")) map.error("rig", "is missing; write which of the rigs: drills it");
    hole.rig = rig.value_or(0);
    hole.bit = index_of(map, "bit", "bit", bit_names_);
    const auto design = read_design(map, hole);
    const auto booked = read_begin(map, rig);
    const input::RecordBase* base = design ? scenarios_.of(map, *design) : nullptr;
    if (!design) map.find("scenario");
    if (!base) {
      for (const char* key : {"drilled", "weight_on_bit", "rotary_speed", "flow"}) map.find(key);
      map.finish();
      return std::nullopt;
    }
    hole.design = *design;
    put_scenario(map, *base, hole);
    map.finish();
    if (!booked) return std::nullopt;
    hole.booked = *booked;
    return hole;
  }

  const std::string& currency() const { return scenarios_.currency(); }

 private:
  std::optional<std::size_t> read_design(input::MapReader& map, const BookedHole& hole) {
    const auto design = index_of(map, "design", "design", design_names_);
    if (!map.has("design") && !map.has("bit"))
      map.error("design",
                "is missing; write which of the designs: drills it, or bit: for one bit and no other");
    if (!hole.bit) return map.has("bit") ? std::nullopt : design;
    const std::size_t its = bits_[*hole.bit].design;
    if (design && *design != its)
      map.error("bit", input::quoted_text(bits_[*hole.bit].name) + " is of design " +
                           input::quoted_text(design_names_[its]) + ", and the hole is booked for " +
                           input::quoted_text(design_names_[*design]) + "; keep one of the two");
    return its;
  }

  /// "2031-11-05", the rig's first hour that day, or "2031-11-05 07:00".
  std::optional<Instant> read_begin(input::MapReader& map, const std::optional<std::size_t>& rig) {
    const auto text = map.word("begins");
    if (!text) {
      if (!map.has("begins")) map.error("begins", "is missing; write a day, such as 2031-11-05");
      return std::nullopt;
    }
    const auto day = base::read_day(text->substr(0, 10));
    const bool alone = text->size() <= 10;
    const auto hour = !alone && ((*text)[10] == ' ' || (*text)[10] == 'T')
                          ? base::read_time_of_day(text->substr(11))
                          : std::nullopt;
    if (!day || (!alone && !hour)) {
      map.error("begins",
                input::quoted_text(*text) + " is no day and hour; write 2031-11-05, or 2031-11-05 07:00");
      return std::nullopt;
    }
    if (*day < plan_.days.first() || *day > plan_.days.last()) {
      outside_.push_back(map.place("begins"));
      return std::nullopt;
    }
    const Instant at = plan_.days.instant(*day, hour.value_or(0));
    if (!alone || !rig) return at;
    const Instant open = rigs_[*rig].open.next_open(at);
    if (open >= plan_.days.instant({day->number + 1}))
      map.warn("begins",
               "is a day on which " + rigs_[*rig].name + " does not work: it begins with its next shift");
    return open;
  }

  void put_scenario(input::MapReader& map, const input::RecordBase& base, BookedHole& hole) {
    scenario::InspectedBit asked;
    asked.bit = hole.name;
    asked.location = map.location();
    input::read_ground_and_plan(map, base, asked);
    hole.scenario = input::run_of_record(map, asked, base);
    hole.scenario.repeat.stop_at = scenario::StopAt::beyond_repair;
    hole.scenario.random_events.drawn = true;
  }

 public:
  void warn_of_outside(input::MapReader& top) const {
    if (outside_.empty()) return;
    top.reading().problems.warn(outside_.front(), "begins",
                                std::to_string(outside_.size()) +
                                    (outside_.size() == 1 ? " hole is" : " holes are") +
                                    " booked outside the plan's days, this the first of them: left out");
  }

 private:
  const std::vector<Rig>& rigs_;
  const std::vector<FleetBit>& bits_;
  PlanReading& plan_;
  HoleScenarios scenarios_;
  std::vector<std::string> design_names_, rig_names_, bit_names_;
  std::map<std::string, int> met_;
  std::vector<scenario::Location> outside_;
};

}  // namespace

std::vector<BookedHole> read_holes(input::MapReader& top, const std::vector<WrittenDesign>& designs,
                                   const std::vector<Rig>& rigs, const std::vector<FleetBit>& bits,
                                   const input::YamlValue& root, PlanReading& plan, std::string& currency) {
  static const input::TableKeys keys{{"hole", "rig", "begins", "scenario", "design", "bit", "drilled",
                                      "weight_on_bit", "rotary_speed", "flow"},
                                     {"drilled", "weight_on_bit", "rotary_speed", "flow"}};
  const PlanRows rows = plan_rows(top, "holes", keys, plan);
  HolesReader reader(designs, rigs, bits, root, plan);
  std::vector<BookedHole> holes;
  for (std::size_t i = 0; i < rows.rows.size(); ++i) {
    input::MapReader map(rows.rows[i], rows.path(i), top.reading(), rows.location);
    if (auto hole = reader.read(map)) holes.push_back(std::move(*hole));
  }
  reader.warn_of_outside(top);
  if (!top.has("holes"))
    top.error("holes", "is missing; list the holes that are booked, or name their table");
  else if (holes.empty() && !top.reading().problems.any_error() && plan.other_files.empty())
    top.error("holes", "has no hole within the plan's days, from: to to:");
  std::stable_sort(holes.begin(), holes.end(),
                   [](const BookedHole& a, const BookedHole& b) { return a.booked < b.booked; });
  currency = reader.currency();
  return holes;
}

}  // namespace dullcast::shop
