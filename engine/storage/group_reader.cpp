#include "engine/storage/group_reader.hpp"

#include <algorithm>
#include <limits>

#include "engine/base/file_error.hpp"
#include "engine/base/plain_text.hpp"

namespace dullcast::storage {

GroupReader::GroupReader(const StoredGroup& root, const StoredFileKind& kind, const std::string& path)
    : group_(&root), kind_(&kind), path_(&path) {}

void GroupReader::damaged(const std::string& name, const std::string& why) const {
  throw base::FileError(*path_, "this " + std::string(kind_->noun) + " is damaged: " + where_ + "/" + name +
                                    " " + why + "; " + kind_->way_out);
}

void GroupReader::too_new(const std::string& name, const std::string& why) const {
  throw base::FileError(*path_, "this " + std::string(kind_->noun) +
                                    " is newer than this program: " + where_ + "/" + name + " " + why);
}

std::vector<int> GroupReader::version_of_kind() const {
  if (!has_attribute("file_type"))
    throw base::FileError(*path_, "this HDF5 file is not a " + std::string(kind_->file_type));
  const std::string type = text_attribute("file_type");
  if (type != kind_->file_type) throw OtherKindOfFile(*path_, type, *kind_);
  std::vector<int> version = int_attribute("format_version");
  if (version.size() != 2) damaged("format_version", "is not major and minor");
  return version;
}

bool GroupReader::has_group(const std::string& name) const {
  return group_->groups.count(name) > 0;
}

bool GroupReader::has_attribute(const std::string& name) const {
  return group_->attributes.count(name) > 0;
}

GroupReader GroupReader::subgroup(const std::string& name) const {
  const auto found = group_->groups.find(name);
  if (found == group_->groups.end()) damaged(name, "is missing");
  GroupReader reader = *this;
  reader.group_ = &found->second;
  reader.where_ += "/" + name;
  return reader;
}

std::vector<std::string> GroupReader::names() const {
  std::vector<std::string> names;
  for (const auto& [name, dataset] : group_->datasets) names.push_back(name);
  return names;
}

const StoredValues& GroupReader::attribute(const std::string& name) const {
  const auto found = group_->attributes.find(name);
  if (found == group_->attributes.end()) damaged(name, "is missing");
  return found->second;
}

std::string GroupReader::one_text(const StoredValues& values, const std::string& name) const {
  const bool one = std::all_of(values.shape.begin(), values.shape.end(), [](auto n) { return n == 1; });
  if (one && values.kind == StoredKind::texts) return values.texts.front();
  if (!one || values.kind != StoredKind::letters) damaged(name, "is not one text");
  return values.letters.substr(0, values.letters.find('\0'));
}

std::string GroupReader::text_attribute(const std::string& name) const {
  return base::plain(one_text(attribute(name), name));
}

std::string GroupReader::long_text_attribute(const std::string& name) const {
  return one_text(attribute(name), name);
}

std::vector<int> GroupReader::int_attribute(const std::string& name) const {
  const StoredValues& values = attribute(name);
  if (values.kind != StoredKind::whole_numbers || values.whole_numbers.empty() ||
      values.whole_numbers.size() > 1024)
    damaged(name, "is not a few whole numbers");
  std::vector<int> numbers;
  for (const long number : values.whole_numbers) {
    if (number != static_cast<int>(number)) damaged(name, "is not a few whole numbers");
    numbers.push_back(static_cast<int>(number));
  }
  return numbers;
}

long GroupReader::long_attribute(const std::string& name) const {
  const StoredValues& values = attribute(name);
  if (values.kind != StoredKind::whole_numbers || values.whole_numbers.size() != 1)
    damaged(name, "is not one whole number");
  return values.whole_numbers.front();
}

bool GroupReader::has_attribute_of(const std::string& name, const std::string& its_attribute) const {
  return dataset(name).attributes.count(its_attribute) > 0;
}

std::string GroupReader::text_attribute_of(const std::string& name, const std::string& its_attribute) const {
  const auto& attributes = dataset(name).attributes;
  const auto found = attributes.find(its_attribute);
  if (found == attributes.end()) damaged(name, "has no " + its_attribute);
  return base::plain(one_text(found->second, name + "/" + its_attribute));
}

const StoredDataset& GroupReader::dataset(const std::string& name) const {
  const StoredDataset* found = group_->find(name);
  if (found == nullptr) damaged(name, "is missing");
  return *found;
}

GroupReader::Shape GroupReader::shape(const std::string& name) const {
  return dataset(name).values.shape;
}

std::size_t GroupReader::length(const std::string& name) const {
  const Shape lengths = shape(name);
  if (lengths.size() != 1) damaged(name, "is not a list");
  return lengths.front();
}

const StoredValues& GroupReader::values_of(const std::string& name, StoredKind kind,
                                           const Shape& shape) const {
  const StoredValues& values = dataset(name).values;
  if (values.kind != kind) damaged(name, "holds another kind of value than it should");
  if (values.shape != shape) damaged(name, "has another shape than it should");
  if (!values.kept) throw std::logic_error("values of " + where_ + "/" + name + " were not asked for");
  return values;
}

void GroupReader::get(const std::string& name, const Shape& shape, std::vector<double>& values) const {
  values = values_of(name, StoredKind::numbers, shape).numbers;
}

void GroupReader::get(const std::string& name, const Shape& shape, std::vector<int>& values) const {
  const std::vector<long>& numbers = values_of(name, StoredKind::whole_numbers, shape).whole_numbers;
  values.clear();
  values.reserve(numbers.size());
  // A number counted from 1 is counted from 0 next, so the least of all does not pass.
  for (const long number : numbers) {
    if (number <= std::numeric_limits<int>::min() || number > std::numeric_limits<int>::max())
      damaged(name, "holds a number out of range");
    values.push_back(static_cast<int>(number));
  }
}

void GroupReader::get(const std::string& name, const Shape& shape, std::vector<long>& values) const {
  values = values_of(name, StoredKind::whole_numbers, shape).whole_numbers;
}

void GroupReader::get(const std::string& name, const Shape& shape, std::vector<std::string>& values) const {
  values = values_of(name, StoredKind::texts, shape).texts;
  for (std::string& text : values) {
    if (!base::is_plain(text)) text = base::plain(text);
  }
}

void GroupReader::get_lettered(const std::string& name, std::size_t rows, std::size_t width,
                               std::vector<std::string>& values) const {
  const StoredValues& stored = values_of(name, StoredKind::letters, {rows, width});
  if (stored.width != 1) damaged(name, "is not made of single letters");
  values.clear();
  for (std::size_t k = 0; k < rows; ++k) {
    const std::string text = stored.letters.substr(k * width, width);
    values.push_back(base::plain(text.substr(0, text.find('\0'))));
  }
}

}  // namespace dullcast::storage
