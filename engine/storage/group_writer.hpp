#pragma once

#include <H5Cpp.h>

#include <string>
#include <vector>

#include "engine/storage/fields.hpp"

namespace dullcast::storage {

/// One axis of a dataset. A netCDF reader takes its name and coordinates from `scale`, an HDF5 dimension
/// scale.
struct TableAxis {
  hsize_t length = 0;
  H5::DataSet scale;
};
using TableAxes = std::vector<TableAxis>;

/// What every dataset states beside its numbers.
struct Label {
  std::string name;
  std::string units;    // UDUNITS; empty for text
  std::string meaning;  // long_name
};

/// What every file for users states of itself.
struct FileHead {
  std::string title, file_type;
  int major_version = 0, minor_version = 0;  // of its format
  std::string program_version, program_commit;
};

/// Writes netCDF-4 style datasets and attributes into one HDF5 group: creation order tracked, object times
/// off, so that the same calls give the same bytes. Numbers are little-endian; everything up to 32 KiB sits
/// in its checksummed object header, anything larger is chunked, deflated and checksummed. HDF5 errors come
/// out as H5::Exception.
class GroupWriter {
 public:
  explicit GroupWriter(const H5::Group& group);
  GroupWriter subgroup(const std::string& name, const std::string& meaning) const;

  void attribute(const std::string& name, const std::string& text) const;
  void attribute(const std::string& name, const std::vector<int>& numbers) const;
  /// The attributes at the root by which a file says what it is.
  void file_head(const FileHead& head) const;
  /// A text of any length (an ordinary attribute ends at 64 KiB).
  void long_attribute(const std::string& name, const std::string& text) const;

  // values.size() is the product of the lengths in dims, last index fastest; no dims: one value.
  H5::DataSet put(const Label& label, const std::vector<double>& values, const TableAxes& dims) const;
  H5::DataSet put(const Label& label, const std::vector<int>& values, const TableAxes& dims) const;
  H5::DataSet put(const Label& label, const std::vector<long>& values, const TableAxes& dims) const;
  H5::DataSet put(const Label& label, const std::vector<std::string>& values, const TableAxes& dims) const;

  /// A dimension whose coordinates are 1, 2, ... length.
  TableAxis counting_dimension(const std::string& name, std::size_t length, const std::string& meaning) const;
  /// Makes a one-dimensional dataset, put without a scale, a dimension of its own name.
  TableAxis as_dimension(const H5::DataSet& dataset, const std::string& name) const;

 private:
  H5::DataSet put_raw(const Label& label, const void* values, std::size_t count,
                      const H5::DataType& in_memory, const H5::DataType& in_file,
                      const TableAxes& dims) const;
  H5::Group group_;
};

}  // namespace dullcast::storage
