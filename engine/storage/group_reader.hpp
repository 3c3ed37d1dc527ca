#pragma once

#include <H5Cpp.h>

#include <string>
#include <vector>

namespace dullcast::storage {

/// Reads datasets and attributes of one HDF5 group, checking kind and shape. Throws FileError, which names
/// the file and the dataset, for anything missing, of another kind or shape, or damaged.
class GroupReader {
 public:
  /// `where` is the group's path inside the file ("" for the root), `file` the file's path for messages.
  GroupReader(const H5::Group& group, std::string where, std::string file);

  bool has_group(const std::string& name) const;
  bool has_attribute(const std::string& name) const;
  GroupReader subgroup(const std::string& name) const;

  std::string text_attribute(const std::string& name) const;
  std::vector<int> int_attribute(const std::string& name) const;

  using Shape = std::vector<hsize_t>;
  /// Lengths of a dataset's axes.
  Shape shape(const std::string& name) const;
  /// Length of a one-dimensional dataset.
  hsize_t length(const std::string& name) const;

  // Values in the file's order, last index fastest; an empty shape is one value.
  void get(const std::string& name, const Shape& shape, std::vector<double>& values) const;
  void get(const std::string& name, const Shape& shape, std::vector<int>& values) const;
  void get(const std::string& name, const Shape& shape, std::vector<long>& values) const;
  void get(const std::string& name, const Shape& shape, std::vector<std::string>& values) const;

  [[noreturn]] void damaged(const std::string& name, const std::string& why) const;
  [[noreturn]] void too_new(const std::string& name, const std::string& why) const;

 private:
  H5::DataSet open(const std::string& name, H5T_class_t kind) const;
  hsize_t checked_count(const H5::DataSet& dataset, const std::string& name, const Shape& shape) const;
  template <class Value>
  void get_numbers(const std::string& name, const Shape& shape, H5T_class_t kind, const H5::PredType& type,
                   std::vector<Value>& values) const;

  H5::Group group_;
  std::string where_, file_;
};

}  // namespace dullcast::storage
