#include "engine/storage/group_reader.hpp"

#include <utility>

#include "engine/base/file_error.hpp"

namespace dullcast::storage {
namespace {

constexpr hsize_t most_values = hsize_t{1}
                                << 32;  // far above any run; a damaged length must not ask for terabytes

}  // namespace

GroupReader::GroupReader(const H5::Group& group, std::string where, std::string file)
    : group_(group), where_(std::move(where)), file_(std::move(file)) {}

void GroupReader::damaged(const std::string& name, const std::string& why) const {
  throw base::FileError(file_, "this result is damaged: " + where_ + "/" + name + " " + why);
}

void GroupReader::too_new(const std::string& name, const std::string& why) const {
  throw base::FileError(file_, "this result is newer than this program: " + where_ + "/" + name + " " + why);
}

bool GroupReader::has_group(const std::string& name) const {
  const htri_t there = H5Lexists(group_.getId(), name.c_str(), H5P_DEFAULT);
  if (there < 0) damaged(name, "cannot be looked up");
  return there > 0;
}

bool GroupReader::has_attribute(const std::string& name) const {
  const htri_t there = H5Aexists(group_.getId(), name.c_str());
  if (there < 0) damaged(name, "cannot be looked up");
  return there > 0;
}

GroupReader GroupReader::subgroup(const std::string& name) const {
  try {
    return GroupReader(group_.openGroup(name), where_ + "/" + name, file_);
  } catch (const H5::Exception&) {
    damaged(name, "cannot be opened");
  }
}

std::string GroupReader::text_attribute(const std::string& name) const {
  try {
    const H5::Attribute attribute = group_.openAttribute(name);
    if (attribute.getTypeClass() != H5T_STRING || attribute.getSpace().getSimpleExtentNpoints() != 1) {
      damaged(name, "is not one text");
    }
    std::string text;
    attribute.read(attribute.getStrType(), text);
    return text;
  } catch (const H5::Exception&) {
    damaged(name, "cannot be read");
  }
}

std::vector<int> GroupReader::int_attribute(const std::string& name) const {
  try {
    const H5::Attribute attribute = group_.openAttribute(name);
    const hssize_t count = attribute.getSpace().getSimpleExtentNpoints();
    if (attribute.getTypeClass() != H5T_INTEGER || count < 1 || count > 1024)
      damaged(name, "is not a few whole numbers");
    std::vector<int> numbers(static_cast<std::size_t>(count));
    attribute.read(H5::PredType::NATIVE_INT, numbers.data());
    return numbers;
  } catch (const H5::Exception&) {
    damaged(name, "cannot be read");
  }
}

GroupReader::Shape GroupReader::shape(const std::string& name) const {
  try {
    const H5::DataSpace space = group_.openDataSet(name).getSpace();
    Shape lengths(static_cast<std::size_t>(space.getSimpleExtentNdims()));
    if (!lengths.empty()) space.getSimpleExtentDims(lengths.data());
    return lengths;
  } catch (const H5::Exception&) {
    damaged(name, "cannot be opened");
  }
}

hsize_t GroupReader::length(const std::string& name) const {
  const Shape lengths = shape(name);
  if (lengths.size() != 1) damaged(name, "is not a list");
  return lengths.front();
}

H5::DataSet GroupReader::open(const std::string& name, H5T_class_t kind) const {
  H5::DataSet dataset = group_.openDataSet(name);
  if (dataset.getTypeClass() != kind) damaged(name, "holds another kind of value than it should");
  return dataset;
}

hsize_t GroupReader::checked_count(const H5::DataSet& dataset, const std::string& name,
                                   const Shape& shape) const {
  const H5::DataSpace space = dataset.getSpace();
  const int axes = space.getSimpleExtentNdims();
  bool same = axes == static_cast<int>(shape.size());
  hsize_t count = 1;
  if (same && axes > 0) {
    Shape found(shape.size());
    space.getSimpleExtentDims(found.data());
    same = found == shape;
    for (const hsize_t length : found) {
      if (length > most_values || count * length > most_values) damaged(name, "claims an impossible size");
      count *= length;
    }
  }
  if (!same) damaged(name, "has another shape than it should");
  return count;
}

template <class Value>
void GroupReader::get_numbers(const std::string& name, const Shape& shape, H5T_class_t kind,
                              const H5::PredType& type, std::vector<Value>& values) const {
  try {
    const H5::DataSet dataset = open(name, kind);
    values.resize(checked_count(dataset, name, shape));
    if (!values.empty()) dataset.read(values.data(), type);
  } catch (const H5::Exception&) {
    damaged(name, "cannot be read");
  }
}

void GroupReader::get(const std::string& name, const Shape& shape, std::vector<double>& values) const {
  get_numbers(name, shape, H5T_FLOAT, H5::PredType::NATIVE_DOUBLE, values);
}

void GroupReader::get(const std::string& name, const Shape& shape, std::vector<int>& values) const {
  get_numbers(name, shape, H5T_INTEGER, H5::PredType::NATIVE_INT, values);
}

void GroupReader::get(const std::string& name, const Shape& shape, std::vector<long>& values) const {
  get_numbers(name, shape, H5T_INTEGER, H5::PredType::NATIVE_LONG, values);
}

void GroupReader::get(const std::string& name, const Shape& shape, std::vector<std::string>& values) const {
  try {
    const H5::DataSet dataset = open(name, H5T_STRING);
    if (!dataset.getStrType().isVariableStr()) damaged(name, "holds another kind of text than it should");
    std::vector<char*> texts(checked_count(dataset, name, shape), nullptr);
    H5::StrType type(H5::PredType::C_S1, H5T_VARIABLE);
    type.setCset(dataset.getStrType().getCset());
    if (!texts.empty()) dataset.read(texts.data(), type);
    values.clear();
    for (const char* text : texts) values.emplace_back(text == nullptr ? "" : text);
    if (!texts.empty()) H5::DataSet::vlenReclaim(texts.data(), type, dataset.getSpace());
  } catch (const H5::Exception&) {
    damaged(name, "cannot be read");
  }
}

}  // namespace dullcast::storage
