#include "engine/input/shelf_reader.hpp"

#include <filesystem>
#include <map>
#include <memory>
#include <set>
#include <tuple>

#include "engine/input/bit_reader.hpp"
#include "engine/input/bit_record_reader.hpp"
#include "engine/input/shelf_table.hpp"
#include "engine/input/text_file.hpp"

namespace dullcast::input {
namespace {

/// The records of a file, as maps in the order written, and the path of the first one's number.
struct RawRecords {
  std::vector<YamlValue> records;
  std::string path;  // "shelf." in YAML, empty in a table
};

RawRecords records_of_yaml(const std::string& text, const std::string& file, Reading& reading) {
  RawRecords raw;
  raw.path = "shelf.";
  const YamlValue root = parse_yaml(text, file, reading.problems);
  if (reading.problems.any_error()) return raw;
  MapReader top(root, "", reading, {file, 1, 1});
  const YamlValue* shared = top.find("shared");
  if (shared && !shared->is_map()) {
    top.error("shared", "is " + kind_name(*shared) +
                            "; write a map of what counts for every record that does not say otherwise");
    shared = nullptr;
  }
  const std::vector<YamlValue>& items = top.list("shelf");
  if (!root.find("shelf"))
    top.error("shelf", "is missing; write shelf: and one \"- \" to a bit that came back");
  top.word("title");
  top.finish();
  if (items.size() > most_csv_rows) {
    top.error("shelf", "holds " + std::to_string(items.size()) + " records; divide those past " +
                           std::to_string(most_csv_rows) + " into other files");
    return raw;
  }
  for (const YamlValue& item : items)
    raw.records.push_back(shared && item.is_map() ? laid_over(*shared, item) : item);
  return raw;
}

/// Reads the scenarios that records are made from, each once.
class Bases {
 public:
  Bases(const ScenarioReader& reader, std::string folder) : reader_(reader), folder_(std::move(folder)) {}

  /// The base that a record names; null when it cannot be used, which is told where it is named first.
  const RecordBase* of(MapReader& map) {
    const auto name = map.word("scenario");
    if (!name) {
      if (!map.has("scenario"))
        map.error("scenario", "is missing; write the file of the scenario that the bit's run is made from");
      return nullptr;
    }
    const std::string file = path_beside(*name, folder_);
    const auto met = bases_.find(file);
    if (met != bases_.end()) return met->second.get();
    std::unique_ptr<RecordBase>& base = bases_[file];
    try {
      base = read_record_base(file, reader_);
    } catch (const ScenarioErrors& failure) {
      map.error("scenario", "cannot be used: " + failure.messages().front());
    }
    return base.get();
  }

 private:
  const ScenarioReader& reader_;
  std::string folder_;
  std::map<std::string, std::unique_ptr<RecordBase>, std::less<>> bases_;
};

/// Reports a bit that was named before with the same day.
void check_twice(MapReader& map, const scenario::InspectedBit& found,
                 std::map<std::pair<std::string, std::string>, int>& met) {
  if (found.bit.empty()) return;
  const auto [first, is_new] = met.emplace(std::pair(found.bit, found.inspected), found.location.line);
  if (is_new) return;
  const std::string line = std::to_string(first->second);
  map.error("bit", found.inspected.empty()
                       ? quoted_text(found.bit) + " stands on line " + line +
                             " already; tell the two apart by the day each was inspected"
                       : quoted_text(found.bit) + " stands on line " + line + " already with the same day, " +
                             found.inspected + "; keep one of them");
}

/// Gathers the problems of all records; what is wrong in `shared` is told once, not with every record.
class Told {
 public:
  explicit Told(Problems& all) : all_(all) {}

  void add(const Problems& of_record) {
    for (const Warning& error : of_record.errors()) {
      if (is_new(error)) all_.error(error.location, error.key, error.text);
    }
    for (const Warning& warning : of_record.warnings()) {
      if (is_new(warning)) all_.warn(warning.location, warning.key, warning.text);
    }
  }

 private:
  bool is_new(const Warning& remark) {
    return met_.emplace(remark.location.line, remark.location.column, remark.text).second;
  }
  Problems& all_;
  std::set<std::tuple<int, int, std::string>> met_;
};

}  // namespace

bool is_table_name(const std::string& file) {
  std::string ending = std::filesystem::path(file).extension().string();
  for (char& c : ending) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return ending == ".csv";
}

std::vector<scenario::ShelvedBit> read_shelf(const std::string& path, const ScenarioReader& reader,
                                             std::vector<Warning>& warnings) {
  auto shelf = read_shelf_text(read_text_file(path), path, reader, warnings);
  if (shelf.empty())
    throw ScenarioErrors({path + ": holds no record; dullcast record asks for one and adds it"});
  return shelf;
}

std::vector<scenario::ShelvedBit> read_shelf_text(const std::string& text, const std::string& file,
                                                  const ScenarioReader& reader,
                                                  std::vector<Warning>& warnings) {
  Problems problems;
  Reading reading{reader.units(), problems, "$", nullptr, reader.keys()};
  const RawRecords raw =
      is_table_name(file) ? RawRecords{records_of_table(read_csv(text, file, problems), file, problems), ""}
                          : records_of_yaml(text, file, reading);
  Bases bases(reader, std::filesystem::path(file).parent_path().string());
  std::map<std::pair<std::string, std::string>, int> met;
  Told told(problems);
  std::vector<scenario::ShelvedBit> shelf;
  for (std::size_t i = 0; i < raw.records.size(); ++i) {
    Problems its_problems;
    Reading its_reading{reader.units(), its_problems, "$", nullptr, reader.keys()};
    const std::string path = raw.path.empty() ? "" : raw.path + std::to_string(i);
    MapReader map(raw.records[i], path, its_reading, {file, 1, 1});
    // Without its scenario nothing of a record can be held to anything.
    if (const RecordBase* base = bases.of(map)) {
      scenario::InspectedBit found = read_bit_record(map, *base);
      map.finish();
      check_twice(map, found, met);
      if (!its_problems.any_error()) {
        scenario::Scenario run = run_of_record(map, found, *base);
        shelf.push_back({std::move(found), std::move(run)});
      }
    }
    told.add(its_problems);
  }
  problems.throw_if_any();
  warnings.insert(warnings.end(), problems.warnings().begin(), problems.warnings().end());
  return shelf;
}

}  // namespace dullcast::input
