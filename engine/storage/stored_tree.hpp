#pragma once

#include <cstddef>
#include <map>
#include <string>
#include <utility>
#include <vector>

/// What a stored file holds, as values: HDF5's groups, datasets and attributes without HDF5.
namespace dullcast::storage {

enum class StoredKind : unsigned char {
  numbers,        // floating point of any width
  whole_numbers,  // integers of any width
  texts,          // each of its own length
  letters,        // texts of `width` bytes each, filled up with zeros
  other           // anything else, of which no values are kept
};

/// Values of a dataset or of an attribute, last index fastest. One value has no lengths.
struct StoredValues {
  StoredKind kind = StoredKind::other;
  std::vector<std::size_t> shape;
  std::size_t width = 0;  // of letters
  bool kept = false;      // false where the reader did not ask for the values
  std::vector<double> numbers;
  std::vector<long> whole_numbers;
  std::vector<std::string> texts;
  std::string letters;

  std::size_t count() const {
    std::size_t product = 1;
    for (const std::size_t length : shape) product *= length;
    return product;
  }
};

struct StoredDataset {
  StoredValues values;
  std::map<std::string, StoredValues> attributes;
};

struct StoredGroup {
  std::map<std::string, StoredValues> attributes;
  std::vector<std::pair<std::string, StoredDataset>> datasets;  // as they were made
  std::map<std::string, StoredGroup> groups;

  const StoredDataset* find(const std::string& name) const {
    for (const auto& [its_name, dataset] : datasets) {
      if (its_name == name) return &dataset;
    }
    return nullptr;
  }
};

}  // namespace dullcast::storage
