#include "engine/storage/sweep_tables.hpp"

#include <hdf5_hl.h>

#include <algorithm>

#include "engine/storage/group_writer.hpp"
#include "engine/storage/sweep_format.hpp"

namespace dullcast::storage {
namespace {

void put_text(const H5::H5Object& object, const std::string& name, const std::string& value) {
  const H5::StrType type(H5::PredType::C_S1, std::max<std::size_t>(value.size(), 1));
  object.createAttribute(name, type, H5::DataSpace(H5S_SCALAR))
      .write(type, value.empty() ? std::string(1, '\0') : value);
}

void put_number(const H5::H5Object& object, const std::string& name, long value) {
  object.createAttribute(name, H5::PredType::STD_I64LE, H5::DataSpace(H5S_SCALAR))
      .write(H5::PredType::NATIVE_LONG, &value);
}

/// A dataset that has its whole place in the file but no values yet: where it stands then depends on nothing
/// but the tables' lengths, not on the parts in which the values come.
H5::DataSet put_empty(const H5::Group& group, const Label& label, const H5::DataType& type,
                      const TableAxes& dims) {
  H5::DSetCreatPropList properties;
  H5Pset_obj_track_times(properties.getId(), 0);
  H5Pset_attr_creation_order(properties.getId(), H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED);
  properties.setLayout(H5D_CONTIGUOUS);
  properties.setAllocTime(H5D_ALLOC_TIME_EARLY);
  properties.setFillTime(H5D_FILL_TIME_NEVER);
  std::vector<hsize_t> lengths;
  for (const TableAxis& dimension : dims) lengths.push_back(dimension.length);
  H5::DataSet dataset = group.createDataSet(
      label.name, type, H5::DataSpace(static_cast<int>(lengths.size()), lengths.data()), properties);
  put_text(dataset, "long_name", label.meaning);
  if (!label.units.empty()) put_text(dataset, "units", label.units);
  for (unsigned axis = 0; axis < dims.size(); ++axis) {
    const hid_t scale = dims[axis].scale.getId();
    if (scale > 0 && H5DSattach_scale(dataset.getId(), scale, axis) < 0)
      throw H5::DataSetIException("attach_scale", label.name);
  }
  return dataset;
}

TableAxis put_dimension(const H5::Group& group, hsize_t count, const std::string& meaning,
                        const std::string& name) {
  const H5::DataSet scale = put_empty(group, {name, "1", meaning}, H5::PredType::STD_I64LE, {{count, {}}});
  if (H5DSset_scale(scale.getId(), name.c_str()) < 0) throw H5::DataSetIException("set_scale", name);
  return {count, scale};
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

void put_root(const GroupWriter& root, const SweepHeader& header) {
  const SweepTable& table = header.table;
  root.file_head({table.title, sweep_format::file_type, sweep_format::major_version,
                  sweep_format::minor_version, header.program_version, header.program_commit});
  root.attribute("design", table.design);
  root.attribute("currency", table.currency);
  root.attribute("draws_alike", std::vector<int>{table.draws_alike ? 1 : 0});
  root.long_attribute("plan", header.plan);
  root.long_attribute("scenario", header.scenario);
  root.long_attribute("beginning", header.manifest);
}

}  // namespace

SweepTables put_tables(const H5::H5File& file, const SweepHeader& header, const SweepCounts& counts) {
  SweepTables tables;
  const H5::Group top = file.openGroup("/");
  const GroupWriter root{top};
  put_root(root, header);
  put_number(top, "points", header.table.points);
  put_number(top, "draws", header.table.draws);
  root.subgroup("runs", "one entry a case");
  const H5::Group runs = file.openGroup("/runs");
  const TableAxis cases = put_dimension(runs, counts.cases, "case, counted from 1", "case");
  tables.cases = cases.scale;
  tables.point = put_empty(runs, {"point", "1", "point of the design, counted from 1"},
                           H5::PredType::STD_I64LE, {cases});
  tables.draw =
      put_empty(runs, {"draw", "1", "draw at that point, counted from 1"}, H5::PredType::STD_I64LE, {cases});
  for (const SweepColumn& column : header.table.columns) {
    const H5::DataSet& dataset = tables.columns.emplace_back(
        put_empty(runs, {column.name, column.units, column.meaning}, H5::PredType::IEEE_F64LE, {cases}));
    put_text(dataset, "role", sweep_format::roles[static_cast<int>(column.role)]);
    if (column.words.empty()) continue;
    // As CF states values that stand for words. Blanks inside a word would part it.
    std::vector<double> values(column.words.size());
    for (std::size_t k = 0; k < values.size(); ++k) values[k] = static_cast<double>(k);
    const hsize_t length = values.size();
    dataset.createAttribute("flag_values", H5::PredType::IEEE_F64LE, H5::DataSpace(1, &length))
        .write(H5::PredType::NATIVE_DOUBLE, values.data());
    std::vector<std::string> words = column.words;
    for (std::string& word : words) std::replace(word.begin(), word.end(), ' ', '_');
    put_text(dataset, "flag_meanings", joined(words));
  }
  root.subgroup("failures", "cases that could not be run");
  const H5::Group failures = file.openGroup("/failures");
  const TableAxis failed =
      put_dimension(failures, counts.failures, "case that failed, counted from 1", "failed_case");
  tables.failed_cases = failed.scale;
  const TableAxis letters =
      put_dimension(failures, sweep_format::message_length, "letter of a message, counted from 1", "letter");
  tables.letters = letters.scale;
  tables.message = put_empty(failures, {"message", "", "why it failed"}, H5::StrType(H5::PredType::C_S1, 1),
                             {failed, letters});
  root.subgroup("histories", "the course of chosen cases at even steps of footage");
  const H5::Group histories = file.openGroup("/histories");
  const TableAxis kept = put_dimension(histories, counts.histories, "case, counted from 1", "kept_case");
  tables.kept_cases = kept.scale;
  const TableAxis rows =
      put_dimension(histories, static_cast<hsize_t>(header.history_rows), "row, counted from 1", "row");
  tables.rows = rows.scale;
  for (const SweepColumn& column : header.history_columns)
    tables.histories.push_back(put_empty(histories, {column.name, column.units, column.meaning},
                                         H5::PredType::IEEE_F64LE, {kept, rows}));
  return tables;
}

}  // namespace dullcast::storage
