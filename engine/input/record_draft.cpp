#include "engine/input/record_draft.hpp"

#include <algorithm>
#include <filesystem>

#include "engine/base/output_place.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/base/words.hpp"
#include "engine/input/bit_reader.hpp"
#include "engine/input/shelf_reader.hpp"
#include "engine/input/shelf_table.hpp"
#include "engine/input/text_file.hpp"

namespace dullcast::input {
namespace {

namespace fs = std::filesystem;

/// Whether a problem's key is that of an answer, or a part of it ("cutters.3", "drilled.0").
bool is_of(std::string_view problem, std::string_view key) {
  return problem.starts_with(key) && (problem.size() == key.size() || problem[key.size()] == '.');
}

YamlValue record_value(const std::map<std::string, std::string>& answers) {
  YamlValue record;
  record.kind = YamlValue::Kind::map;
  for (const auto& [key, text] : answers) {
    YamlValue value;
    value.kind = YamlValue::Kind::scalar;
    value.text = text;
    record.entries.push_back({key, {}, std::move(value)});
  }
  return record;
}

/// A scenario's path as a shelf in another folder names it.
std::string seen_from(const std::string& shelf, const fs::path& scenario) {
  const fs::path folder = fs::path(shelf).parent_path().lexically_normal();
  if (folder.empty() || folder == "." || folder.is_absolute() != scenario.is_absolute())
    return scenario.string();
  const fs::path beside = scenario.lexically_relative(folder);
  return (beside.empty() ? scenario : beside).string();
}

}  // namespace

RecordDraft::RecordDraft(const ScenarioReader& reader, std::string shelf_file)
    : reader_(reader), file_(std::move(shelf_file)) {
  std::error_code none;
  new_ = !fs::exists(fs::symlink_status(file_, none));
  if (new_) {
    const std::string ending = fs::path(file_).extension().string();
    if (!is_table_name(file_) && ending != ".yaml" && ending != ".yml")
      throw ScenarioErrors({file_ + ": is no name for a new shelf; let it end in .csv for a table that a "
                                    "spreadsheet opens, or in .yaml"});
    text_ = empty_shelf(file_);
    return;
  }
  read_ = text_ = read_text_file(file_);
  if (text_.find_first_not_of(" \t\r\n") == std::string::npos) text_ = empty_shelf(file_);
  std::vector<Warning> unwise;
  const auto shelf = read_shelf_text(text_, file_, reader_, unwise);
  records_ = shelf.size();
  for (const scenario::ShelvedBit& record : shelf) met_.emplace(record.found.bit, record.found.inspected);
  if (!shelf.empty()) usual_scenario_ = seen_from(file_, shelf.back().found.scenario_file);
}

RecordDraft::Remarks RecordDraft::answer_scenario(const std::string& text) {
  if (!base::is_plain(text)) return {{"holds a control character; write the name of a file"}, {}};
  const std::string path = path_beside(text, fs::path(file_).parent_path().string());
  try {
    base_ = read_record_base(path, reader_);
  } catch (const ScenarioErrors& failure) {
    return {{"cannot be used: " + failure.messages().front()}, {}};
  }
  answers_["scenario"] = text;
  return {};
}

RecordDraft::Remarks RecordDraft::answer(const std::string& key, const std::string& text) {
  const auto& keys = record_keys();
  if (std::find(keys.begin(), keys.end(), key) == keys.end()) {
    const std::string nearest = base::nearest_word(key, keys);
    return {{"is no key of a record; " +
             (nearest.empty() ? "the keys are " + base::one_of(keys) : "did you mean " + nearest + "?")},
            {}};
  }
  if (text.empty()) {
    if (key == "bit" || key == "scenario") return {{"must be said"}, {}};
    answers_.erase(key);
    return {};
  }
  if (text.size() > most_csv_cell) return {{"is too long an answer"}, {}};
  if (key == "scenario") return answer_scenario(text);
  if (!base_) return {{"cannot be held to anything before the scenario is said"}, {}};
  std::map<std::string, std::string> tried = answers_;
  tried[key] = text;
  tried.erase("scenario");
  Problems problems;
  Reading reading{reader_.units(), problems};
  const YamlValue record = record_value(tried);
  MapReader map(record, "", reading, {file_, 0, 0});
  const scenario::InspectedBit found = read_bit_record(map, *base_);
  if (!problems.any_error() || (problems.errors().size() == 1 && is_of(problems.errors()[0].key, "bit")))
    run_of_record(map, found, *base_);
  Remarks remarks;
  for (const Warning& error : problems.errors()) {
    if (is_of(error.key, key)) remarks.faults.push_back(base::plain(error.text));
  }
  for (const Warning& warning : problems.warnings()) {
    if (is_of(warning.key, key)) remarks.unwise.push_back(base::plain(warning.text));
  }
  if ((key == "bit" || key == "inspected") && tried.count("bit") > 0 &&
      met_.count({tried["bit"], tried.count("inspected") > 0 ? tried["inspected"] : ""}) > 0 &&
      key == "inspected")
    remarks.faults.push_back("is a day on which the shelf has a record of " + quoted_text(tried["bit"]) +
                             " already");
  if (remarks.faults.empty()) answers_[key] = text;
  return remarks;
}

std::vector<RecordAnswer> RecordDraft::answers() const {
  std::vector<RecordAnswer> result;
  for (const std::string& key : record_keys()) {
    if (const auto found = answers_.find(key); found != answers_.end())
      result.push_back({key, found->second});
  }
  return result;
}

void RecordDraft::write() const {
  const std::string with = with_record(text_, file_, answers());
  std::vector<Warning> unwise;
  if (read_shelf_text(with, file_, reader_, unwise).size() != records_ + 1)
    throw ScenarioErrors({file_ + ": the record would not be read back; add it by hand"});
  std::error_code none;
  const bool there = fs::exists(fs::symlink_status(file_, none));
  if (there == new_ || (there && read_text_file(file_) != read_))
    throw ScenarioErrors(
        {file_ + ": was changed by somebody else meanwhile; nothing was written, record the bit again"});
  base::write_text(file_, with);
}

}  // namespace dullcast::input
