#pragma once

#include <memory>

#include "engine/input/library.hpp"
#include "engine/input/scenario_reader.hpp"
#include "engine/scenario/inspected_bit.hpp"

namespace dullcast::input {

/// The scenario that records are made from, and the library with its own entries put over it.
struct RecordBase {
  scenario::Scenario scenario;
  Library library;
};

/// Reads it from a file. Throws ScenarioErrors when it cannot be used, or when its bit goes on from a result:
/// nobody knows here what that left of it.
std::unique_ptr<RecordBase> read_record_base(const std::string& file, const ScenarioReader& reader);

/// The same of a text parsed before (ScenarioReader::parse); what is unwise is appended to `warnings`.
std::unique_ptr<RecordBase> record_base_of(const YamlValue& tree, const std::string& file,
                                           const ScenarioReader& reader, std::vector<Warning>& warnings);

/// The most that one shelf's record may say of pieces: rocks, repairs, photos.
inline constexpr std::size_t most_record_parts = 100;

/// Reads what a run did otherwise than its scenario says: `drilled`, `weight_on_bit`, `rotary_speed` and
/// `flow`, of the library of `base`. Reports everything that is wrong.
void read_ground_and_plan(MapReader& map, const RecordBase& base, scenario::InspectedBit& found);

/// Reads one record: every key of record_keys() but `scenario`, which is read before, since the record is
/// held to that scenario's bit and library (`base`). Reports everything that is wrong; the record is good
/// only where nothing is.
scenario::InspectedBit read_bit_record(MapReader& map, const RecordBase& base);

/// The scenario of what the bit did: the base's with the record's ground, plan, lot and holes, no chance, no
/// rule that ends it early and no rows. Ground that the record states is one hole's share, in the order
/// written, from the surface; a rock of it is as the scenario's first layer of that name has it, or as the
/// library. Reports, at `map`'s keys, ground that makes no hole, and warns of upsets that no longer come.
scenario::Scenario run_of_record(MapReader& map, const scenario::InspectedBit& found, const RecordBase& base);

}  // namespace dullcast::input
