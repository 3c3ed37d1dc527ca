#include "engine/input/library.hpp"

#include <iterator>

#include "engine/base/words.hpp"
#include "engine/input/quantity_reader.hpp"
#include "engine/input/text_file.hpp"
#include "engine/scenario/number_fields.hpp"
#include "engine/scenario/stone_abrasivity.hpp"

namespace dullcast::input {

std::string unknown_name(const char* what, std::string_view name, const std::vector<std::string>& names) {
  constexpr std::size_t most_named = 100;
  const std::string wrong = "there is no " + std::string(what) + " " + quoted_text(name) + "; ";
  if (names.size() > most_named) return wrong + "write one of those that the library and the scenario list";
  const std::string nearest = base::nearest_word(name, names);
  if (!nearest.empty()) return wrong + "did you mean " + nearest + "?";
  return wrong + "write " + base::one_of(names);
}

namespace {

// What a record has beside its numbers.
void read_words(MapReader& map, scenario::RockRecord& rock) {
  if (const auto note = map.remark("note")) rock.note = *note;
  if (const auto hard = map.yes_or_no("hard_on_cutters")) rock.hard_on_cutters = *hard;
}
void read_words(MapReader& map, scenario::FluidRecord& fluid) {
  if (const auto kind = map.choice("kind", {"liquid", "gas"})) {
    fluid.kind = *kind == 0 ? scenario::FluidKind::liquid : scenario::FluidKind::gas;
  }
}
void read_words(MapReader&, scenario::GradeRecord&) {}
void read_words(MapReader&, scenario::LotRecord&) {}
void read_words(MapReader&, scenario::BodyRecord&) {}

// What numbers of a record must hold together.
void check_record(MapReader& map, scenario::RockRecord& rock) {
  check_inclusions(map, rock);
}
template <class Record>
void check_record(MapReader&, Record&) {}

void warn_record(MapReader& map, const scenario::RockRecord& rock, const std::vector<UsualNumber>& usual) {
  warn_unusual(map, rock, usual);
}
template <class Record>
void warn_record(MapReader&, const Record&, const std::vector<UsualNumber>&) {}

template <class Record>
using Records = std::map<std::string, Record, std::less<>>;

// What a scenario's new record starts from: only its optional numbers are left standing.
template <class Record>
Record new_record(const Records<Record>& records, const char* usual) {
  const auto found = records.find(usual);
  return found == records.end() ? Record{} : found->second;
}
scenario::RockRecord plain_start(const Records<scenario::RockRecord>&) {
  scenario::RockRecord rock;
  const scenario::Quantity none{0.0, 0.0, 0.0, "asm", "not stated, so none"};
  rock.inclusion_share = rock.inclusion_size = rock.inclusion_strength = none;
  rock.inclusion_abrasivity = rock.stickiness = none;
  return rock;
}
scenario::GradeRecord plain_start(const Records<scenario::GradeRecord>& grades) {
  return new_record(grades, "standard");
}
scenario::BodyRecord plain_start(const Records<scenario::BodyRecord>& bodies) {
  return new_record(bodies, "steel");
}
template <class Record>
Record plain_start(const Records<Record>&) {
  return {};
}

/// Reads a map of records. In a library file every record is complete; in a scenario it may change a known
/// one.
template <class Record>
void read_records(MapReader map, const YamlValue& value, const char* what, bool in_library,
                  Records<Record>& records, const std::vector<UsualNumber>& usual = {}) {
  const auto usually = [&](const char* key) { return usual_words(key, usual, map.reading().units); };
  const Records<Record> others = records;
  for (const auto& entry : value.entries) {
    const YamlValue* record_value = map.find(entry.key);
    MapReader fields(record_value ? *record_value : no_value(), map.path_of(entry.key), map.reading(),
                     entry.location);
    Record record = in_library ? Record{} : plain_start(others);
    bool complete = true;
    if (const auto known = records.find(entry.key); known != records.end()) {
      record = known->second;
      complete = false;
    }
    if (!in_library) {
      if (const auto like = fields.word("like")) {
        if (const Record* model = named_record(fields, "like", what, *like, records)) record = *model;
        complete = false;  // an unknown one is reported; its missing numbers need not be
      }
    }
    record.name = entry.key;
    read_words(fields, record);
    records[entry.key] = record;  // also when there are errors, so that what names it draws no more of them
    if (complete && !in_library) {
      if (!fields.has(scenario::number_fields(record).front().key)) {
        fields.error(
            "", unknown_name(what, entry.key, names_of(others)) + ", or start a new one with like: NAME");
        continue;
      }
      // A scenario's own new record needs every number, but not the library's spread and source.
      for (const auto& field : scenario::number_fields(record)) {
        if (!field.optional && !fields.has(field.key)) {
          fields.error(field.key, "is missing from a new " + std::string(what) + "; write " +
                                      std::string(field.key) + ": " + field.wanted->examples +
                                      usually(field.key) + ", or start from another with like: NAME");
        }
      }
    }
    read_numbers(fields, record, in_library, usually);
    check_record(fields, record);
    warn_record(fields, record, usual);
    fields.finish();
    records[entry.key] = record;
  }
}

void read_bits(MapReader map, const YamlValue& value, bool in_library, Records<YamlValue>& bits) {
  for (const auto& entry : value.entries) {
    map.find(entry.key);
    if (!entry.value.is_map()) {
      map.error(entry.key, "is " + kind_name(entry.value) + "; write the keys of a bit");
      continue;
    }
    if (!in_library && bits.contains(entry.key)) {
      map.error(entry.key,
                "is a bit of the library already; give yours another name, or change the library's "
                "under bit: with like: " +
                    entry.key);
      continue;
    }
    if (const auto* like = entry.value.find("like")) {
      map.reading().problems.error(
          like->value.location, map.path_of(entry.key) + ".like",
          "has no place in a list of bits: describe the bit in full here, and write like: "
          "under bit: to change one");
    }
    bits[entry.key] = entry.value;
  }
}

/// Braze softens before it melts, whatever is drawn.
void check_models(MapReader& map, const scenario::ModelNumbers& models) {
  if (models.braze_softening.high < models.braze_solidus.low) return;
  if (!map.has("braze_softening") && !map.has("braze_solidus")) return;  // reported as missing
  map.error(map.has("braze_softening") ? "braze_softening" : "braze_solidus",
            "braze must soften before it melts: the highest braze_softening lies above the lowest "
            "braze_solidus");
}

}  // namespace

void check_inclusions(MapReader& map, scenario::RockRecord& rock) {
  const bool known = rock.inclusion_size.low > 0.0 && rock.inclusion_strength.low > 0.0;
  if (!(rock.inclusion_share.high > 0.0)) return;
  // Stones that small are the rock's own grains, and there would be more of them than a cutter can be struck
  // by.
  constexpr double least_stone = 1e-4;  // m
  if (known && rock.inclusion_size.low < least_stone) {
    map.error("inclusion_size",
              "is less than 0.1 mm: grains of the rock itself are no stones in it; write 1 mm or more, or "
              "leave the stones out");
    return;
  }
  if (known) return scenario::fill_stone_abrasivity(rock);
  map.error("inclusion_share",
            "is above 0, but the stones have no size or no strength; write inclusion_size: 25 mm and "
            "inclusion_strength: 150 MPa");
}

LibraryTexts read_library_texts(const std::string& folder) {
  LibraryTexts texts{folder, {}};
  Problems problems;
  for (const char* name : library_files) {
    const std::string path = folder + "/" + name;
    try {
      texts.files[name] = read_text_file(path);
    } catch (const ScenarioErrors&) {
      std::vector<std::string> names(std::begin(library_files), std::end(library_files));
      const std::string last = names.back();
      names.pop_back();
      std::string all;
      for (const std::string& each : names) all += (all.empty() ? "" : ", ") + each;
      problems.error({path, 0, 0}, "", "cannot be read; a library folder holds " + all + " and " + last);
    }
  }
  problems.throw_if_any();
  return texts;
}

Library read_library(const std::string& folder, const UnitParser& units) {
  return read_library(read_library_texts(folder), units);
}

Library read_library(const LibraryTexts& texts, const UnitParser& units) {
  Library library;
  Problems problems;
  Reading reading{units, problems, "$"};
  const std::string& folder = texts.folder;
  const auto parse_file = [&](const char* name) {
    return parse_yaml(texts.files.at(name), folder + "/" + name, problems);
  };
  const auto records = [&](const char* file, const char* what, auto& into) {
    const YamlValue value = parse_file(file);
    read_records(MapReader(value, "", reading), value, what, true, into);
  };
  records("rocks.yaml", "rock", library.rocks);
  records("grades.yaml", "cutter grade", library.grades);
  records("lots.yaml", "lot", library.lots);
  records("bodies.yaml", "bit body", library.bodies);
  records("fluids.yaml", "fluid", library.fluids);
  const YamlValue bits = parse_file("bits.yaml");
  read_bits(MapReader(bits, "", reading), bits, true, library.bits);
  const YamlValue models = parse_file("models.yaml");
  MapReader map(models, "", reading, {folder + "/models.yaml", 0, 0});
  read_numbers(map, library.models, true);
  check_models(map, library.models);
  map.finish();
  problems.throw_if_any();
  std::vector<scenario::RockRecord> rocks;
  for (const auto& [name, rock] : library.rocks) rocks.push_back(rock);
  library.usual_rock = usual_numbers(rocks);
  return library;
}

void read_own_entries(MapReader& scenario, Library& library) {
  const auto section = [&](const char* key) -> std::pair<MapReader, const YamlValue&> {
    const YamlValue* value = scenario.find(key);
    return {MapReader(value ? *value : no_value(), scenario.path_of(key), scenario.reading(),
                      scenario.location()),
            value ? *value : no_value()};
  };
  const auto records = [&](const char* key, const char* what, auto& into) {
    auto [map, value] = section(key);
    read_records(map, value, what, false, into);
  };
  auto [rocks, rocks_value] = section("rocks");
  read_records(rocks, rocks_value, "rock", false, library.rocks, library.usual_rock);
  records("grades", "cutter grade", library.grades);
  records("lots", "lot", library.lots);
  records("bodies", "bit body", library.bodies);
  records("fluids", "fluid", library.fluids);
  auto [bits, bits_value] = section("bits");
  read_bits(bits, bits_value, false, library.bits);
  auto [models, models_value] = section("models");
  read_numbers(models, library.models, false);
  check_models(models, library.models);
  models.finish();
}

}  // namespace dullcast::input
