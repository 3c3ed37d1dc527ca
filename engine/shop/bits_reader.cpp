#include <algorithm>
#include <cmath>
#include <filesystem>
#include <memory>

#include "engine/analysis/bit_bill.hpp"
#include "engine/base/file_error.hpp"
#include "engine/base/machine_fault.hpp"
#include "engine/input/bit_reader.hpp"
#include "engine/input/latest_record.hpp"
#include "engine/input/shelf_reader.hpp"
#include "engine/learning/found_condition.hpp"
#include "engine/shop/fleet_reader.hpp"
#include "engine/shop/time_reader.hpp"
#include "engine/storage/starting_state.hpp"

namespace dullcast::shop {
namespace {

constexpr double same_radius = 1e-6;  // m, as storage::apply_starting_state forgives

/// The keys by which a bit states how it starts, as in a scenario; those of lists may have their items
/// between semicolons.
const std::vector<std::string>& start_keys() {
  static const std::vector<std::string> keys{
      "starting_wear",       "starting_damage",  "starting_chip_hazard", "starting_lost",
      "starting_table_gone", "starting_chipped", "starting_erosion",     "starting_blade_wear",
      "starting_pad_wear",   "rebuilt"};
  return keys;
}

bool names_cutters(std::string_view key) {
  return key == "starting_lost" || key == "starting_table_gone" || key == "starting_chipped";
}

std::string file_name(const std::string& path) {
  return std::filesystem::path(path).filename().string();
}

/// Shelves that records are looked up in, each read once.
class Shelves {
 public:
  explicit Shelves(PlanReading& plan) : plan_(plan) {}

  /// The shelf that `map` names; null where it cannot be used, which is told of the map or kept.
  const std::vector<scenario::ShelvedBit>* of(input::MapReader& map, const std::string& file) {
    const auto met = shelves_.find(file);
    if (met != shelves_.end()) return met->second.get();
    auto& shelf = shelves_[file];
    const auto text = plan_.text_of(map, "shelf", file);
    if (!text) return nullptr;
    try {
      std::vector<input::Warning> unwise;  // told where the shelf is read for itself
      shelf = std::make_unique<std::vector<scenario::ShelvedBit>>(
          input::read_shelf_text(*text, file, plan_.scenarios, unwise));
    } catch (const input::ScenarioErrors& failure) {
      plan_.keep(failure);
    }
    return shelf.get();
  }

 private:
  PlanReading& plan_;
  std::map<std::string, std::unique_ptr<std::vector<scenario::ShelvedBit>>> shelves_;
};

/// What tells two bits apart whose cutters stand elsewhere; empty for bits of one design.
std::string difference(const geometry::BitLayout& of_record, const geometry::BitLayout& of_design) {
  if (of_record.count() != of_design.count())
    return std::to_string(of_record.count()) + " cutters, and the design's " +
           std::to_string(of_design.count());
  if (std::abs(of_record.bit_radius - of_design.bit_radius) > same_radius ||
      (of_record.radius - of_design.radius).abs().maxCoeff() > same_radius)
    return "its cutters at other radii than the design's";
  return {};
}

class BitsReader {
 public:
  BitsReader(const std::vector<WrittenDesign>& designs, const std::vector<Rig>& rigs, PlanReading& plan)
      : designs_(designs), plan_(plan), shelves_(plan) {
    for (const WrittenDesign& design : designs) design_names_.push_back(design.design.name);
    places_.emplace_back("shop");
    for (const Rig& rig : rigs) places_.push_back(rig.name);
  }

  FleetBit read(input::MapReader& map) {
    FleetBit bit;
    bit.name = own_name(map, "bit", "K-17", met_);
    const auto design = index_of(map, "design", "design", design_names_);
    if (!map.has("design")) map.error("design", "is missing; write which of the designs: it is");
    bit.design = design.value_or(0);
    if (const auto place = index_of(map, "at", "rig", places_); place && *place > 0) bit.at_rig = *place - 1;
    bit.needs_rework = map.yes_or_no("needs_rework").value_or(false);
    if (bit.needs_rework && bit.at_rig)
      map.error("needs_rework",
                "is said of a bit in the shop; this one is at a rig, which sends it in when it is due");
    if (const auto day = read_day(map, "from")) {
      bit.from = std::max(0.0, plan_.days.instant(*day));
      if (bit.from >= plan_.days.end())
        map.warn("from", "is after the plan's last day: the bit takes no part");
    }
    if (design && designs_[*design].good) {
      read_condition(map, designs_[*design], bit);
    } else {
      for (const char* key : {"result", "shelf", "record"}) map.find(key);
      for (const std::string& key : start_keys()) map.find(key);
    }
    map.finish();
    return bit;
  }

 private:
  void read_condition(input::MapReader& map, const WrittenDesign& design, FleetBit& bit) {
    const auto result = map.word("result"), shelf = map.word("shelf"), record = map.word("record");
    bool stated = false;
    for (const std::string& key : start_keys()) stated = stated || (map.has(key) && key != "rebuilt");
    if (shelf && (result || stated || map.has("rebuilt")))
      map.error("shelf", "says how the bit was found, and other keys how it starts; keep one of the two");
    if (record && !shelf) map.error("record", "belongs beside shelf:, the file that it stands in");
    if (shelf) {
      for (const std::string& key : start_keys()) map.find(key);
      from_shelf(map, input::path_beside(*shelf, plan_.folder), record.value_or(bit.name), design, bit);
      return;
    }
    from_start(map, design, result, bit);
    bit.told_by = result ? "result " + file_name(*result) : stated ? "as the plan states" : "new";
  }

  /// What the keys of a scenario's bit say, and an earlier result.
  void from_start(input::MapReader& map, const WrittenDesign& design,
                  const std::optional<std::string>& result, FleetBit& bit) {
    input::YamlValue root;
    root.kind = input::YamlValue::Kind::map;
    root.location = map.location();
    root.entries.push_back({"bit", map.location(), design.bit});
    input::YamlValue& written = root.entries.front().value;
    for (const std::string& key : start_keys()) {
      const input::YamlValue* value = map.find(key);
      if (!value) continue;
      input::YamlValue given = *value;
      const std::vector<input::YamlValue> parts = input::parts_of(given);
      if (given.is_scalar() && (parts.size() > 1 || names_cutters(key))) {
        given.kind = input::YamlValue::Kind::list;
        given.items = parts;
      }
      written.entries.push_back({key, map.place(key), std::move(given)});
    }
    if (result) {
      input::YamlValue path;
      path.kind = input::YamlValue::Kind::scalar;
      path.text = *result;
      path.location = map.place("result");
      written.entries.push_back({"continues", map.place("result"), std::move(path)});
    }
    input::Problems& problems = map.reading().problems;
    const std::size_t before = problems.error_count();
    input::MapReader its(root, map.path(), map.reading(), map.location());
    scenario::Scenario scenario;
    scenario.bit = input::read_bit(its, plan_.library, plan_.folder);
    if (problems.error_count() != before) return;
    try {
      if (result) storage::apply_starting_state(scenario, storage::read_result(scenario.bit.continues));
      bit.condition = analysis::condition_at_start(scenario);
    } catch (const base::FileError& failure) {
      map.error("result", std::string("cannot be used: ") + failure.what());
    }
  }

  void from_shelf(input::MapReader& map, const std::string& file, const std::string& record,
                  const WrittenDesign& design, FleetBit& bit) {
    const auto* shelf = shelves_.of(map, file);
    if (!shelf) return;
    const char* key = map.has("record") ? "record" : "shelf";
    try {
      const scenario::ShelvedBit found = input::latest_record(*shelf, record, file);
      const std::string other = difference(found.run.bit.layout, design.design.bit.layout);
      if (!other.empty()) {
        map.error(key, "leads to a bit of another design: it has " + other);
        return;
      }
      bit.condition = learning::found_condition(found).bit;
      bit.told_by = (found.found.inspected.empty() ? "record" : "inspected " + found.found.inspected) +
                    std::string(", ") + file_name(file);
    } catch (const std::exception& failure) {
      if (base::is_machine_fault(failure)) throw;
      map.error(key, std::string("cannot be used: ") + failure.what());
    }
  }

  const std::vector<WrittenDesign>& designs_;
  PlanReading& plan_;
  Shelves shelves_;
  std::vector<std::string> design_names_, places_;
  std::map<std::string, int> met_;
};

}  // namespace

std::vector<FleetBit> read_bits(input::MapReader& top, const std::vector<WrittenDesign>& designs,
                                const std::vector<Rig>& rigs, PlanReading& plan) {
  input::TableKeys keys{{"bit", "design", "at", "from", "needs_rework", "result", "shelf", "record"},
                        {"starting_wear", "starting_erosion", "starting_blade_wear", "starting_pad_wear"}};
  keys.names.insert(keys.names.end(), start_keys().begin(), start_keys().end());
  const PlanRows rows = plan_rows(top, "bits", keys, plan);
  if (!top.has("bits")) top.error("bits", "is missing; list the bits that there are, or name their table");
  BitsReader reader(designs, rigs, plan);
  std::vector<FleetBit> bits;
  for (std::size_t i = 0; i < rows.rows.size(); ++i) {
    input::MapReader map(rows.rows[i], rows.path(i), top.reading(), rows.location);
    bits.push_back(reader.read(map));
  }
  return bits;
}

}  // namespace dullcast::shop
