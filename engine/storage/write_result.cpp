#include "engine/storage/write_result.hpp"

#include <cmath>
#include <cstddef>
#include <limits>
#include <span>

#include "engine/base/file_error.hpp"
#include "engine/base/program_version.hpp"
#include "engine/storage/bit_fields.hpp"
#include "engine/storage/fields.hpp"
#include "engine/storage/group_writer.hpp"
#include "engine/storage/hdf5_file_aside.hpp"

namespace dullcast::storage {
namespace {

using result_format::Field;
using result_format::Fields;

/// A per-cutter array whose length is not the number of cutters; carries the name of the dataset.
struct WrongLength {
  std::string dataset;
  Eigen::Index length;
};

/// One field of all rows, as the file holds it.
template <class Row>
H5::DataSet put_field(const GroupWriter& group, std::span<const Row> rows, const Field<Row>& field,
                      TableAxes dims, const TableAxis& cutters) {
  const Label label{field.name, field.units, field.meaning};
  const auto put_member = [&]<class Value>(Value Row::*member) -> H5::DataSet {
    if constexpr (std::is_same_v<Value, Eigen::ArrayXd> || std::is_same_v<Value, Eigen::ArrayXi>) {
      dims.push_back(cutters);
      std::vector<typename Value::Scalar> values;
      values.reserve(rows.size() * cutters.length);
      for (const Row& row : rows) {
        const Value& array = row.*member;
        if (static_cast<hsize_t>(array.size()) != cutters.length) throw WrongLength{field.name, array.size()};
        for (const auto value : array) {
          if constexpr (std::is_same_v<Value, Eigen::ArrayXi>) {
            values.push_back(value + field.added_in_file);
          } else {
            values.push_back(value);  // not plus 0, which would turn -0 into 0
          }
        }
      }
      return group.put(label, values, dims);
    } else if constexpr (std::is_same_v<Value, std::optional<double>>) {
      std::vector<double> values;
      for (const Row& row : rows)
        values.push_back((row.*member).value_or(std::numeric_limits<double>::quiet_NaN()));
      return group.put(label, values, dims);
    } else {
      std::vector<Value> values;
      for (const Row& row : rows) {
        if constexpr (std::is_same_v<Value, int>) {
          values.push_back(row.*member + field.added_in_file);
        } else {
          values.push_back(row.*member);
        }
      }
      return group.put(label, values, dims);
    }
  };
  return std::visit(put_member, field.member);
}

/// One object: a dataset without row dimension for every field.
template <class Object>
void put_object(const GroupWriter& group, const Object& object, const Fields<Object>& fields,
                const TableAxis& cutters) {
  for (const Field<Object>& field : fields) put_field<Object>(group, {&object, 1}, field, {}, cutters);
}

/// Rows of a table along a dimension counted 1, 2, ...; returns the dimension.
template <class Row>
TableAxis put_table(const GroupWriter& group, const std::vector<Row>& rows, const Fields<Row>& fields,
                    const std::string& dimension, const std::string& meaning, const TableAxis& cutters) {
  TableAxis row = group.counting_dimension(dimension, rows.size(), meaning);
  for (const Field<Row>& field : fields) put_field<Row>(group, rows, field, {row}, cutters);
  return row;
}

/// Rows of a table along a dimension whose coordinate is the table's first field.
template <class Row>
void put_table_along_first(const GroupWriter& group, const std::vector<Row>& rows, const Fields<Row>& fields,
                           const TableAxis& cutters) {
  const Field<Row>& first = fields.front();
  const TableAxis row =
      group.as_dimension(put_field<Row>(group, rows, first, {{rows.size(), {}}}, cutters), first.name);
  for (const Field<Row>& field : fields) {
    if (&field != &first) put_field<Row>(group, rows, field, {row}, cutters);
  }
}

void put_milestone(const GroupWriter& outcome, const std::string& name, const std::string& meaning,
                   const simulation::Milestone& milestone, const TableAxis& cutters) {
  const GroupWriter group = outcome.subgroup(name, meaning);
  put_object(group, milestone, result_format::milestone_fields(), cutters);
  std::vector<int> pointed = milestone.cutters;
  for (int& cutter : pointed) cutter += result_format::counted_from_one;
  const TableAxis dimension = group.counting_dimension(
      "pointed", pointed.size(), "place in the list of cutters that the rule points at");
  group.put({"pointed_cutter", "1", "cutters that the rule points at, counted from 1"}, pointed, {dimension});
  put_object(group, milestone.condition, result_format::condition_fields(), cutters);
}

void put_events(const GroupWriter& group, const std::vector<simulation::Event>& events,
                const TableAxis& cutters) {
  const TableAxis row =
      put_table(group, events, result_format::event_fields(), "event", "event, in order of time", cutters);
  std::vector<std::string> kinds;
  for (const simulation::Event& event : events) kinds.emplace_back(simulation::event_name(event.kind));
  group.put({"kind", "", "kind of event, one word"}, kinds, {row});
}

void put_kinds(const GroupWriter& group, const scenario::BitRecord& bit, const TableAxis& cutters) {
  const TableAxis row = put_table(group, bit.layout.shapes, result_format::cutter_fields(), "kind",
                                  "kind of cutter, counted from 1", cutters);
  std::vector<std::string> names, grades;
  for (const scenario::CutterKind& kind : bit.kinds) {
    names.push_back(kind.name);
    grades.push_back(kind.grade.name);
  }
  group.put({"name", "", "name of each kind of cutter"}, names, {row});
  group.put({"grade", "", "cutter grade of each kind"}, grades, {row});
}

void put_outcome(const GroupWriter& group, const simulation::RunOutcome& outcome, const TableAxis& cutters) {
  group.put({"ended_by", "", "why the run ended"},
            std::vector<std::string>{simulation::ended_by_name(outcome.ended_by)}, {});
  put_object(group, outcome, result_format::outcome_fields(), cutters);
  put_object(group.subgroup("end", "condition of the bit when the run stopped"), outcome.end,
             result_format::condition_fields(), cutters);
  if (outcome.rework_due) {
    put_milestone(group, "rework_due", "where rework fell due", *outcome.rework_due, cutters);
  }
  if (outcome.beyond_repair) {
    put_milestone(group, "beyond_repair", "where the bit passed beyond repair", *outcome.beyond_repair,
                  cutters);
  }
  put_table(group.subgroup("rules", "how far each rework rule was used when rework fell due, or at the end"),
            outcome.rules, result_format::rule_fields(), "rule", "rework rule, counted from 1", cutters);
  put_object(group.subgroup("hottest", "the hottest moment of the run"), outcome.hottest,
             result_format::hottest_fields(), cutters);
}

void put_notes(const GroupWriter& group, const ForecastNotes& notes, const TableAxis& cutters) {
  put_object(group, notes, result_format::notes_fields(), cutters);
  put_table(group.subgroup("shares", "which numbers make the band, the greatest share first"), notes.shares,
            result_format::share_fields(), "place", "place by share, counted from 1", cutters);
  put_table(group.subgroup("survival", "each layer when the pump stops and nobody notices"), notes.survival,
            result_format::survival_fields(), "followed", "layer followed, counted from 1", cutters);
}

void put_run(const H5::H5File& file, const scenario::Scenario& scenario,
             const simulation::RunOutcome& outcome, const std::vector<simulation::LifeEnd>& band,
             const std::optional<ForecastNotes>& notes) {
  const scenario::BitRecord& bit = scenario.bit;
  const GroupWriter root{file.openGroup("/")};
  root.file_head({scenario.title, result_format::file_type, result_format::major_version,
                  result_format::minor_version, base::program_version(), base::program_commit()});
  root.long_attribute("scenario", scenario.text);
  const TableAxis cutters = root.counting_dimension("cutter", static_cast<std::size_t>(bit.layout.count()),
                                                    "cutter, counted from 1");

  const GroupWriter bit_group = root.subgroup("bit", "the bit and its cutters as the run began");
  bit_group.attribute("cutter_grade", bit.kinds.front().grade.name);
  bit_group.attribute("body", bit.body.name);
  put_object(bit_group, bit, result_format::bit_fields(), cutters);
  put_object(bit_group, bit.build, result_format::build_fields(), cutters);
  put_object(bit_group, bit.layout, result_format::layout_fields(), cutters);
  put_object(bit_group, bit.layout.shapes.front(), result_format::cutter_fields(), cutters);
  put_kinds(bit_group.subgroup("kinds", "kinds of cutter on the bit, its usual one first"), bit, cutters);
  put_object(root.subgroup("rework_rules", "the scenario's limits"), scenario.rules,
             result_format::rework_rule_fields(), cutters);
  put_outcome(root.subgroup("outcome", "what became of the bit"), outcome, cutters);
  put_table(root.subgroup("band", "when rework falls due at the low, central and high end of the forecast"),
            band, result_format::life_fields(), "life", "end of the band, counted from 1", cutters);
  if (notes) put_notes(root.subgroup("forecast", "what the forecast rests on"), *notes, cutters);
  put_table_along_first(root.subgroup("holes", "one entry per hole"), outcome.holes,
                        result_format::hole_fields(), cutters);
  put_table(root.subgroup("layers", "one entry each time a layer was drilled"), outcome.passages,
            result_format::layer_fields(), "passage", "passage through a layer, in order of time", cutters);
  put_events(root.subgroup("events", "what happened"), outcome.events, cutters);
  put_table_along_first(root.subgroup("history", "the run through time"), outcome.history.rows,
                        result_format::history_fields(), cutters);
}

}  // namespace

void write_result(const std::string& path, const scenario::Scenario& scenario,
                  const simulation::RunOutcome& outcome, const std::vector<simulation::LifeEnd>& band,
                  const std::optional<ForecastNotes>& notes) {
  try {
    write_hdf5_file(path, "file",
                    [&](const H5::H5File& file) { put_run(file, scenario, outcome, band, notes); });
  } catch (const WrongLength& wrong) {
    throw base::FileError(path, "nothing written: " + wrong.dataset + " has " + std::to_string(wrong.length) +
                                    " entries, but the bit has " +
                                    std::to_string(scenario.bit.layout.count()) + " cutters");
  }
}

}  // namespace dullcast::storage
