#include "engine/results/stored_run.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <new>
#include <span>
#include <stdexcept>

#include "engine/results/fields.hpp"
#include "engine/results/group_reader.hpp"
#include "engine/results/memory_file.hpp"
#include "engine/results/result_error.hpp"
#include "engine/results/seal.hpp"
#include "engine/results/whole_file.hpp"

namespace dullcast {
namespace {

using result_format::Field;
using result_format::Fields;

/// One field into all rows; `shape` is empty for a single object, otherwise the number of rows.
template <class Row>
void get_field(const GroupReader& group, std::span<Row> rows, const Field<Row>& field,
               GroupReader::Shape shape, hsize_t cutters) {
  const auto get_member = [&]<class Value>(Value Row::*member) {
    if constexpr (std::is_same_v<Value, Eigen::ArrayXd> || std::is_same_v<Value, Eigen::ArrayXi>) {
      using Scalar = typename Value::Scalar;
      shape.push_back(cutters);
      std::vector<Scalar> values;
      group.get(field.name, shape, values);
      const auto count = static_cast<Eigen::Index>(cutters);
      for (std::size_t k = 0; k < rows.size(); ++k) {
        rows[k].*member = Eigen::Map<const Value>(values.data() + k * cutters, count);
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
void get_object(const GroupReader& group, Object& object, const Fields<Object>& fields, hsize_t cutters) {
  for (const Field<Object>& field : fields) get_field<Object>(group, {&object, 1}, field, {}, cutters);
}

template <class Row>
std::vector<Row> get_table(const GroupReader& group, const Fields<Row>& fields, const std::string& dimension,
                           hsize_t cutters) {
  const hsize_t count = group.length(dimension);
  std::vector<Row> rows(count);
  for (const Field<Row>& field : fields) get_field<Row>(group, rows, field, {count}, cutters);
  return rows;
}

template <class Kind>
Kind named(const GroupReader& group, const std::string& dataset, const std::string& word,
           const std::vector<Kind>& kinds, const char* (*name_of)(Kind)) {
  const auto found =
      std::find_if(kinds.begin(), kinds.end(), [&](Kind kind) { return word == name_of(kind); });
  if (found == kinds.end()) group.damaged(dataset, "says '" + word + "', which this program does not know");
  return *found;
}

Milestone get_milestone(const GroupReader& group, hsize_t cutters) {
  Milestone milestone;
  get_object(group, milestone, result_format::milestone_fields(), cutters);
  group.get("pointed_cutter", {group.length("pointed")}, milestone.cutters);
  for (int& cutter : milestone.cutters) {
    cutter -= result_format::counted_from_one;
    if (cutter < 0 || static_cast<hsize_t>(cutter) >= cutters) {
      group.damaged("pointed_cutter", "names a cutter that the bit does not have");
    }
  }
  get_object(group, milestone.condition, result_format::condition_fields(), cutters);
  return milestone;
}

std::vector<Event> get_events(const GroupReader& group, hsize_t cutters) {
  std::vector<Event> events = get_table(group, result_format::event_fields(), "event", cutters);
  std::vector<std::string> kinds;
  group.get("kind", {events.size()}, kinds);
  for (std::size_t k = 0; k < events.size(); ++k) {
    events[k].kind = named(group, "kind", kinds[k], result_format::all_event_kinds(), event_name);
  }
  return events;
}

void get_outcome(const GroupReader& root, RunOutcome& outcome, hsize_t cutters) {
  const GroupReader group = root.subgroup("outcome");
  std::vector<std::string> ended;
  group.get("ended_by", {}, ended);
  outcome.ended_by = named(group, "ended_by", ended.front(), result_format::all_ends(), ended_by_name);
  get_object(group, outcome, result_format::outcome_fields(), cutters);
  get_object(group.subgroup("end"), outcome.end, result_format::condition_fields(), cutters);
  if (group.has_group("rework_due"))
    outcome.rework_due = get_milestone(group.subgroup("rework_due"), cutters);
  if (group.has_group("beyond_repair"))
    outcome.beyond_repair = get_milestone(group.subgroup("beyond_repair"), cutters);
  outcome.rules = get_table(group.subgroup("rules"), result_format::rule_fields(), "rule", cutters);
  get_object(group.subgroup("hottest"), outcome.hottest, result_format::hottest_fields(), cutters);
  outcome.holes = get_table(root.subgroup("holes"), result_format::hole_fields(), "hole", cutters);
  outcome.passages = get_table(root.subgroup("layers"), result_format::layer_fields(), "passage", cutters);
  outcome.events = get_events(root.subgroup("events"), cutters);
  outcome.history.rows =
      get_table(root.subgroup("history"), result_format::history_fields(), "time", cutters);
}

void check_type_and_version(const GroupReader& root, StoredRun& run) {
  if (!root.has_attribute("file_type")) throw ResultError(run.path, "this HDF5 file is not a dullcast run");
  const std::string type = root.text_attribute("file_type");
  if (type != result_format::file_type) {
    throw ResultError(run.path, "this file is a '" + type + "', not a '" + result_format::file_type + "'");
  }
  const std::vector<int> version = root.int_attribute("format_version");
  if (version.size() != 2) root.damaged("format_version", "is not major and minor");
  run.format_major = version[0];
  run.format_minor = version[1];
  if (run.format_major != result_format::major_version) {
    const std::string writer =
        root.has_attribute("program_version") ? root.text_attribute("program_version") : "?";
    throw ResultError(
        run.path, "this result has format " + std::to_string(version[0]) + "." + std::to_string(version[1]) +
                      ", written by dullcast " + writer + "; this program reads format " +
                      std::to_string(result_format::major_version) +
                      (run.format_major > result_format::major_version ? ": use a newer dullcast"
                                                                       : ": run its scenario again"));
  }
}

StoredRun read_file(const H5::H5File& file, const std::string& path) {
  const GroupReader root(file.openGroup("/"), "", path);
  StoredRun run;
  run.path = path;
  check_type_and_version(root, run);
  run.program_version = root.text_attribute("program_version");
  run.program_commit = root.text_attribute("program_commit");
  run.title = root.text_attribute("title");
  run.scenario_text = root.text_attribute("scenario");
  const hsize_t cutters = root.length("cutter");

  const GroupReader bit_group = root.subgroup("bit");
  BitRecord bit;
  get_object(bit_group, bit, result_format::bit_fields(), cutters);
  get_object(bit_group, bit.layout, result_format::layout_fields(), cutters);
  get_object(bit_group, bit.layout.shape, result_format::cutter_fields(), cutters);
  run.bit_name = bit.name;
  run.cutter_grade = bit_group.text_attribute("cutter_grade");
  run.body = bit_group.text_attribute("body");
  run.layout = bit.layout;
  run.starting_wear = bit.starting_wear;
  run.starting_damage = bit.starting_damage;
  run.band = get_table(root.subgroup("band"), result_format::life_fields(), "life", cutters);
  get_object(root.subgroup("rework_rules"), run.rules, result_format::rework_rule_fields(), cutters);
  get_outcome(root, run.outcome, cutters);
  return run;
}

/// HDF5 files begin with these eight bytes (HDF5 file format specification, "Superblock").
constexpr std::array<unsigned char, 8> hdf5_signature = {0x89, 'H', 'D', 'F', '\r', '\n', 0x1a, '\n'};

}  // namespace

StoredRun read_result(const std::string& path) {
  const std::vector<std::byte> bytes = read_whole_file(path);
  if (bytes.empty()) throw ResultError(path, "this file is empty");
  const std::size_t compared = std::min(bytes.size(), hdf5_signature.size());
  const bool begins_well =
      std::equal(hdf5_signature.begin(), hdf5_signature.begin() + static_cast<long>(compared), bytes.begin(),
                 [](unsigned char a, std::byte b) { return std::byte{a} == b; });
  if (!begins_well) throw ResultError(path, "this is not a dullcast run: it is not an HDF5 file");
  if (check_seal(bytes) == Seal::broken) {
    throw ResultError(path, "this result is damaged: its bytes do not agree with the checksum at its end");
  }
  const QuietHdf5 quiet;
  try {
    const H5::H5File file = open_in_memory(bytes);
    return read_file(file, path);
  } catch (const H5::Exception&) {
    throw ResultError(path, "this result is damaged or cut short: HDF5 cannot open it");
  } catch (const std::bad_alloc&) {
    throw ResultError(path, "this result is damaged, or larger than this machine's memory");
  } catch (const std::length_error&) {
    throw ResultError(path, "this result is damaged: it claims an impossible size");
  }
}

}  // namespace dullcast
