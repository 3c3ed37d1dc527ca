#include "engine/storage/stored_run.hpp"

#include <algorithm>
#include <cmath>
#include <span>

#include "engine/base/file_error.hpp"
#include "engine/storage/bit_fields.hpp"
#include "engine/storage/fields.hpp"
#include "engine/storage/group_reader.hpp"

namespace dullcast::storage {
namespace {

using result_format::Field;
using result_format::Fields;

/// What reading a group needs to know of the file around it.
struct Source {
  std::size_t cutters;  // entries of a per-cutter array
  int minor;            // version of the format, which says what the file can hold
};

/// What a file from before `field` stands for: per-cutter arrays of zeros, all else as a new Row has it.
template <class Row>
void leave_at_start(std::span<Row> rows, const Field<Row>& field, std::size_t cutters) {
  const auto leave_member = [&]<class Value>(Value Row::*member) {
    if constexpr (std::is_same_v<Value, Eigen::ArrayXd> || std::is_same_v<Value, Eigen::ArrayXi>) {
      for (Row& row : rows) row.*member = Value::Zero(static_cast<Eigen::Index>(cutters));
    }
  };
  std::visit(leave_member, field.member);
}

/// One field into all rows; `shape` is empty for a single object, otherwise the number of rows.
template <class Row>
void get_field(const GroupReader& group, std::span<Row> rows, const Field<Row>& field,
               GroupReader::Shape shape, Source source) {
  if (field.first_minor > source.minor) {
    leave_at_start(rows, field, source.cutters);
    return;
  }
  const auto get_member = [&]<class Value>(Value Row::*member) {
    if constexpr (std::is_same_v<Value, Eigen::ArrayXd> || std::is_same_v<Value, Eigen::ArrayXi>) {
      using Scalar = typename Value::Scalar;
      shape.push_back(source.cutters);
      std::vector<Scalar> values;
      group.get(field.name, shape, values);
      const auto count = static_cast<Eigen::Index>(source.cutters);
      for (std::size_t k = 0; k < rows.size(); ++k) {
        rows[k].*member = Eigen::Map<const Value>(values.data() + k * source.cutters, count);
        if constexpr (std::is_same_v<Value, Eigen::ArrayXi>) rows[k].*member -= field.added_in_file;
      }
    } else if constexpr (std::is_same_v<Value, std::optional<double>>) {
      std::vector<double> values;
      group.get(field.name, shape, values);
      for (std::size_t k = 0; k < rows.size(); ++k) {
        if (!std::isnan(values[k])) rows[k].*member = values[k];
      }
    } else {
      std::vector<Value> values;
      group.get(field.name, shape, values);
      for (std::size_t k = 0; k < rows.size(); ++k) {
        if constexpr (std::is_same_v<Value, int>) {
          rows[k].*member = values[k] - field.added_in_file;
        } else {
          rows[k].*member = values[k];
        }
      }
    }
  };
  std::visit(get_member, field.member);
}

template <class Object>
void get_object(const GroupReader& group, Object& object, const Fields<Object>& fields, Source source) {
  for (const Field<Object>& field : fields) get_field<Object>(group, {&object, 1}, field, {}, source);
}

template <class Row>
std::vector<Row> get_table(const GroupReader& group, const Fields<Row>& fields, const std::string& dimension,
                           Source source) {
  const std::size_t count = group.length(dimension);
  std::vector<Row> rows(count);
  for (const Field<Row>& field : fields) get_field<Row>(group, rows, field, {count}, source);
  return rows;
}

template <class Kind>
Kind named(const GroupReader& group, const std::string& dataset, const std::string& word,
           const std::vector<Kind>& kinds, const char* (*name_of)(Kind), Source source) {
  const auto found =
      std::find_if(kinds.begin(), kinds.end(), [&](Kind kind) { return word == name_of(kind); });
  if (found == kinds.end()) {
    if (source.minor > result_format::minor_version) {
      group.too_new(dataset, "says '" + word + "', which a newer format added: use a newer dullcast");
    }
    group.damaged(dataset, "says '" + word + "', which this program does not know");
  }
  return *found;
}

simulation::Milestone get_milestone(const GroupReader& group, Source source) {
  simulation::Milestone milestone;
  get_object(group, milestone, result_format::milestone_fields(), source);
  group.get("pointed_cutter", {group.length("pointed")}, milestone.cutters);
  for (int& cutter : milestone.cutters) {
    cutter -= result_format::counted_from_one;
    if (cutter < 0 || static_cast<std::size_t>(cutter) >= source.cutters) {
      group.damaged("pointed_cutter", "names a cutter that the bit does not have");
    }
  }
  get_object(group, milestone.condition, result_format::condition_fields(), source);
  return milestone;
}

std::vector<simulation::Event> get_events(const GroupReader& group, Source source) {
  std::vector<simulation::Event> events = get_table(group, result_format::event_fields(), "event", source);
  std::vector<std::string> kinds;
  group.get("kind", {events.size()}, kinds);
  for (std::size_t k = 0; k < events.size(); ++k) {
    events[k].kind =
        named(group, "kind", kinds[k], result_format::all_event_kinds(), simulation::event_name, source);
  }
  return events;
}

void get_outcome(const GroupReader& root, simulation::RunOutcome& outcome, Source source) {
  const GroupReader group = root.subgroup("outcome");
  std::vector<std::string> ended;
  group.get("ended_by", {}, ended);
  outcome.ended_by =
      named(group, "ended_by", ended.front(), result_format::all_ends(), simulation::ended_by_name, source);
  get_object(group, outcome, result_format::outcome_fields(), source);
  get_object(group.subgroup("end"), outcome.end, result_format::condition_fields(), source);
  if (group.has_group("rework_due")) outcome.rework_due = get_milestone(group.subgroup("rework_due"), source);
  if (group.has_group("beyond_repair"))
    outcome.beyond_repair = get_milestone(group.subgroup("beyond_repair"), source);
  outcome.rules = get_table(group.subgroup("rules"), result_format::rule_fields(), "rule", source);
  get_object(group.subgroup("hottest"), outcome.hottest, result_format::hottest_fields(), source);
  outcome.holes = get_table(root.subgroup("holes"), result_format::hole_fields(), "hole", source);
  outcome.passages = get_table(root.subgroup("layers"), result_format::layer_fields(), "passage", source);
  outcome.events = get_events(root.subgroup("events"), source);
  outcome.history.rows = get_table(root.subgroup("history"), result_format::history_fields(), "time", source);
}

void check_type_and_version(const GroupReader& root, StoredRun& run) {
  const std::vector<int> version = root.version_of_kind();
  run.format_major = version[0];
  run.format_minor = version[1];
  if (run.format_major != result_format::major_version) {
    const std::string writer =
        root.has_attribute("program_version") ? root.text_attribute("program_version") : "?";
    throw base::FileError(
        run.path, "this result has format " + std::to_string(version[0]) + "." + std::to_string(version[1]) +
                      ", written by dullcast " + writer + "; this program reads format " +
                      std::to_string(result_format::major_version) +
                      (run.format_major > result_format::major_version ? ": use a newer dullcast"
                                                                       : ": run its scenario again"));
  }
}

/// Kinds of cutter; a file from before 1.3 has one, without a name of its own.
void get_kinds(const GroupReader& bit_group, geometry::BitLayout& layout, StoredRun& run, Source source) {
  if (source.minor < 3) {
    get_object(bit_group, layout.shapes.front(), result_format::cutter_fields(), source);
    run.kind_names = {"usual"};
    run.kind_grades = {bit_group.text_attribute("cutter_grade")};
    return;
  }
  const GroupReader group = bit_group.subgroup("kinds");
  layout.shapes = get_table(group, result_format::cutter_fields(), "kind", source);
  group.get("name", {layout.shapes.size()}, run.kind_names);
  group.get("grade", {layout.shapes.size()}, run.kind_grades);
  if (layout.shapes.empty()) group.damaged("kind", "says that the bit has no kind of cutter");
  if ((layout.kind < 0).any() || (layout.kind >= static_cast<int>(layout.shapes.size())).any())
    bit_group.damaged("kind", "names a kind of cutter that the file does not hold");
}

StoredRun read_group(const GroupReader& root, const std::string& path) {
  StoredRun run;
  run.path = path;
  check_type_and_version(root, run);
  run.program_version = root.text_attribute("program_version");
  run.program_commit = root.text_attribute("program_commit");
  run.title = root.text_attribute("title");
  run.scenario_text = root.long_text_attribute("scenario");
  const Source source{root.length("cutter"), run.format_minor};
  if (source.cutters == 0) root.damaged("cutter", "says that the bit has no cutter");

  const GroupReader bit_group = root.subgroup("bit");
  scenario::BitRecord bit;
  get_object(bit_group, bit, result_format::bit_fields(), source);
  get_object(bit_group, bit.build, result_format::build_fields(), source);
  get_object(bit_group, bit.layout, result_format::layout_fields(), source);
  get_kinds(bit_group, bit.layout, run, source);
  run.bit_name = bit.name;
  run.body = bit_group.text_attribute("body");
  run.build = bit.build;
  run.layout = bit.layout;
  copy_start(bit, run);
  // The first files of format 1.0 had no band yet.
  if (source.minor > 0 || root.has_group("band")) {
    run.band = get_table(root.subgroup("band"), result_format::life_fields(), "life", source);
  }
  if (root.has_group("forecast")) {
    const GroupReader group = root.subgroup("forecast");
    ForecastNotes notes;
    get_object(group, notes, result_format::notes_fields(), source);
    notes.shares = get_table(group.subgroup("shares"), result_format::share_fields(), "place", source);
    notes.survival =
        get_table(group.subgroup("survival"), result_format::survival_fields(), "followed", source);
    run.notes = std::move(notes);
  }
  get_object(root.subgroup("rework_rules"), run.rules, result_format::rework_rule_fields(), source);
  get_outcome(root, run.outcome, source);
  return run;
}

}  // namespace

StoredRun read_result(const std::string& path, Seal seal) {
  return result_of(read_stored_file(path, run_file, seal), path);
}

StoredRun result_of(const StoredGroup& file, const std::string& path) {
  return read_group({file, run_file, path}, path);
}

}  // namespace dullcast::storage
