#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "engine/storage/stored_file.hpp"
#include "engine/storage/stored_tree.hpp"

namespace dullcast::storage {

/// Reads datasets and attributes of one group of a stored file, checking kind and shape. Throws FileError,
/// which names the file, the dataset and what to do, for anything missing, of another kind or shape, or out
/// of range. Texts come back as base::plain tells them, so that what a file from elsewhere says may be shown;
/// those of long_text are as stored.
class GroupReader {
 public:
  /// The root of the file at `path`, which messages name. Neither outlives the reader.
  GroupReader(const StoredGroup& root, const StoredFileKind& kind, const std::string& path);

  /// That the file is of its kind, and its version, major and minor.
  std::vector<int> version_of_kind() const;

  bool has_group(const std::string& name) const;
  bool has_attribute(const std::string& name) const;
  GroupReader subgroup(const std::string& name) const;
  /// Names of the datasets, as they were made.
  std::vector<std::string> names() const;

  std::string text_attribute(const std::string& name) const;
  /// A text of many lines, for a program to read: not to be shown.
  std::string long_text_attribute(const std::string& name) const;
  std::vector<int> int_attribute(const std::string& name) const;
  long long_attribute(const std::string& name) const;
  /// Of a dataset.
  bool has_attribute_of(const std::string& name, const std::string& its_attribute) const;
  std::string text_attribute_of(const std::string& name, const std::string& its_attribute) const;

  using Shape = std::vector<std::size_t>;
  /// Lengths of a dataset's axes.
  Shape shape(const std::string& name) const;
  /// Length of a one-dimensional dataset.
  std::size_t length(const std::string& name) const;

  // Values in the file's order, last index fastest; an empty shape is one value.
  void get(const std::string& name, const Shape& shape, std::vector<double>& values) const;
  void get(const std::string& name, const Shape& shape, std::vector<int>& values) const;
  void get(const std::string& name, const Shape& shape, std::vector<long>& values) const;
  void get(const std::string& name, const Shape& shape, std::vector<std::string>& values) const;
  /// Texts stored as rows of single letters, `width` each, up to the first zero.
  void get_lettered(const std::string& name, std::size_t rows, std::size_t width,
                    std::vector<std::string>& values) const;

  [[noreturn]] void damaged(const std::string& name, const std::string& why) const;
  [[noreturn]] void too_new(const std::string& name, const std::string& why) const;

 private:
  const StoredDataset& dataset(const std::string& name) const;
  const StoredValues& values_of(const std::string& name, StoredKind kind, const Shape& shape) const;
  const StoredValues& attribute(const std::string& name) const;
  std::string one_text(const StoredValues& values, const std::string& name) const;

  const StoredGroup* group_;
  const StoredFileKind* kind_;
  const std::string* path_;
  std::string where_;
};

}  // namespace dullcast::storage
