#include "engine/storage/group_writer.hpp"

#include <hdf5_hl.h>

#include <algorithm>
#include <numeric>

namespace dullcast::storage {
namespace {

constexpr std::size_t largest_compact = 32768;  // bytes; HDF5 allows 64 KiB less the header
constexpr hsize_t chunk_rows = 1024;
constexpr unsigned deflate_level = 6;

void succeeded(herr_t status, const char* what) {
  if (status < 0) throw H5::Exception(what, "HDF5 refused the call");
}

H5::StrType text_of_any_length() {
  H5::StrType type(H5::PredType::C_S1, H5T_VARIABLE);
  type.setCset(H5T_CSET_UTF8);
  return type;
}

template <class Owner>
void put_attribute(Owner& owner, const std::string& name, const std::string& text) {
  H5::StrType type(H5::PredType::C_S1, std::max<std::size_t>(text.size(), 1));
  type.setCset(H5T_CSET_UTF8);
  type.setStrpad(H5T_STR_NULLTERM);
  // Null-terminated types as netCDF writes them may fill their whole length; readers add the terminator.
  owner.createAttribute(name, type, H5::DataSpace(H5S_SCALAR))
      .write(type, text.empty() ? std::string(1, '\0') : text);
}

H5::DataSpace space_of(const TableAxes& dims) {
  if (dims.empty()) return H5::DataSpace(H5S_SCALAR);
  std::vector<hsize_t> lengths;
  for (const TableAxis& dimension : dims) lengths.push_back(dimension.length);
  return H5::DataSpace(static_cast<int>(lengths.size()), lengths.data());
}

H5::DSetCreatPropList layout_of(std::size_t bytes, bool text, const TableAxes& dims) {
  H5::DSetCreatPropList properties;
  succeeded(H5Pset_obj_track_times(properties.getId(), 0), "object times");
  succeeded(H5Pset_attr_creation_order(properties.getId(), H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED),
            "attribute order");
  if (bytes == 0) return properties;
  if (bytes <= largest_compact) {
    properties.setLayout(H5D_COMPACT);
  } else if (!text) {
    std::vector<hsize_t> chunk;
    for (const TableAxis& dimension : dims) chunk.push_back(dimension.length);
    chunk.front() = std::min(chunk.front(), chunk_rows);
    properties.setChunk(static_cast<int>(chunk.size()), chunk.data());
    properties.setShuffle();
    properties.setDeflate(deflate_level);
    properties.setFletcher32();
  }
  return properties;
}

}  // namespace

GroupWriter::GroupWriter(const H5::Group& group) : group_(group) {}

GroupWriter GroupWriter::subgroup(const std::string& name, const std::string& meaning) const {
  const hid_t properties = H5Pcreate(H5P_GROUP_CREATE);
  const unsigned order = H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED;
  hid_t id = -1;
  if (H5Pset_link_creation_order(properties, order) >= 0 &&
      H5Pset_attr_creation_order(properties, order) >= 0 && H5Pset_obj_track_times(properties, 0) >= 0) {
    id = H5Gcreate2(group_.getId(), name.c_str(), H5P_DEFAULT, properties, H5P_DEFAULT);
  }
  H5Pclose(properties);
  if (id < 0) throw H5::GroupIException("subgroup", "cannot create " + name);
  H5::Group group(id);
  H5Gclose(id);  // H5::Group counted itself in
  GroupWriter writer(group);
  writer.attribute("long_name", meaning);
  return writer;
}

void GroupWriter::attribute(const std::string& name, const std::string& text) const {
  put_attribute(group_, name, text);
}

void GroupWriter::attribute(const std::string& name, const std::vector<int>& numbers) const {
  const hsize_t length = numbers.size();
  group_.createAttribute(name, H5::PredType::STD_I32LE, H5::DataSpace(1, &length))
      .write(H5::PredType::NATIVE_INT, numbers.data());
}

void GroupWriter::file_head(const FileHead& head) const {
  attribute("Conventions", "CF-1.9");
  attribute("title", head.title);
  attribute("source", "dullcast " + head.program_version + " (" + head.program_commit + "), a simulation");
  attribute("file_type", head.file_type);
  attribute("format_version", std::vector<int>{head.major_version, head.minor_version});
  attribute("program_version", head.program_version);
  attribute("program_commit", head.program_commit);
}

void GroupWriter::long_attribute(const std::string& name, const std::string& text) const {
  const H5::StrType type = text_of_any_length();
  group_.createAttribute(name, type, H5::DataSpace(H5S_SCALAR)).write(type, text);
}

H5::DataSet GroupWriter::put_raw(const Label& label, const void* values, std::size_t count,
                                 const H5::DataType& in_memory, const H5::DataType& in_file,
                                 const TableAxes& dims) const {
  const bool text = in_file.getClass() == H5T_STRING;
  const H5::DSetCreatPropList properties = layout_of(count * in_file.getSize(), text, dims);
  H5::DataSet dataset = group_.createDataSet(label.name, in_file, space_of(dims), properties);
  if (count > 0) dataset.write(values, in_memory);
  put_attribute(dataset, "long_name", label.meaning);
  if (!label.units.empty()) put_attribute(dataset, "units", label.units);
  for (unsigned axis = 0; axis < dims.size(); ++axis) {
    const hid_t scale = dims[axis].scale.getId();
    if (scale > 0) succeeded(H5DSattach_scale(dataset.getId(), scale, axis), "dimension scale");
  }
  return dataset;
}

H5::DataSet GroupWriter::put(const Label& label, const std::vector<double>& values,
                             const TableAxes& dims) const {
  return put_raw(label, values.data(), values.size(), H5::PredType::NATIVE_DOUBLE, H5::PredType::IEEE_F64LE,
                 dims);
}

H5::DataSet GroupWriter::put(const Label& label, const std::vector<int>& values,
                             const TableAxes& dims) const {
  return put_raw(label, values.data(), values.size(), H5::PredType::NATIVE_INT, H5::PredType::STD_I32LE,
                 dims);
}

H5::DataSet GroupWriter::put(const Label& label, const std::vector<long>& values,
                             const TableAxes& dims) const {
  return put_raw(label, values.data(), values.size(), H5::PredType::NATIVE_LONG, H5::PredType::STD_I64LE,
                 dims);
}

H5::DataSet GroupWriter::put(const Label& label, const std::vector<std::string>& values,
                             const TableAxes& dims) const {
  std::vector<const char*> texts;
  for (const std::string& value : values) texts.push_back(value.c_str());
  const H5::StrType type = text_of_any_length();
  return put_raw(label, texts.data(), texts.size(), type, type, dims);
}

TableAxis GroupWriter::counting_dimension(const std::string& name, std::size_t length,
                                          const std::string& meaning) const {
  std::vector<int> numbers(length);
  std::iota(numbers.begin(), numbers.end(), 1);
  return as_dimension(put({name, "1", meaning}, numbers, {{length, {}}}), name);
}

TableAxis GroupWriter::as_dimension(const H5::DataSet& dataset, const std::string& name) const {
  succeeded(H5DSset_scale(dataset.getId(), name.c_str()), "dimension scale");
  hsize_t length = 0;
  dataset.getSpace().getSimpleExtentDims(&length);
  return {length, dataset};
}

}  // namespace dullcast::storage
