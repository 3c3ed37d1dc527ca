#include "engine/storage/sweep_part_file.hpp"

#include <limits>

#include "engine/base/file_error.hpp"
#include "engine/storage/group_reader.hpp"
#include "engine/storage/group_writer.hpp"
#include "engine/storage/hdf5_file_aside.hpp"
#include "engine/storage/hdf5_use.hpp"
#include "engine/storage/stored_file.hpp"

namespace dullcast::storage {
namespace {

hsize_t length_of(Eigen::Index count) {
  return static_cast<hsize_t>(count);
}

void put_part(const H5::H5File& file, const SweepPart& part) {
  const GroupWriter root{file.openGroup("/")};
  root.attribute("file_type", part_file.file_type);
  root.attribute("fingerprint", part.fingerprint);
  const auto rows = static_cast<std::size_t>(part.values.rows());
  const auto columns = static_cast<std::size_t>(part.values.cols());
  root.put({"first_case", "1", "its first case, counted from 1"}, std::vector<long>{part.first_case}, {});
  root.put({"values", "1", "cases by columns: inputs, then outcomes"},
           std::vector<double>(part.values.data(), part.values.data() + part.values.size()),
           {{rows, {}}, {columns, {}}});
  std::vector<long> failed;
  std::vector<std::string> messages;
  for (const SweepFailure& failure : part.failures) {
    failed.push_back(failure.case_number);
    messages.push_back(failure.message);
  }
  root.put({"failed_case", "1", "cases that failed"}, failed, {{failed.size(), {}}});
  root.put({"message", "", "and why"}, messages, {{messages.size(), {}}});
  std::vector<long> kept;
  std::vector<double> course;
  for (const ThinHistory& history : part.histories) {
    kept.push_back(history.case_number);
    for (Eigen::Index r = 0; r < history.values.rows(); ++r) {
      for (Eigen::Index c = 0; c < history.values.cols(); ++c) course.push_back(history.values(r, c));
    }
  }
  const hsize_t h_rows = part.histories.empty() ? 0 : length_of(part.histories.front().values.rows());
  const hsize_t h_columns = part.histories.empty() ? 0 : length_of(part.histories.front().values.cols());
  root.put({"history_case", "1", "cases whose course is kept"}, kept, {{kept.size(), {}}});
  root.put({"history_rows", "1", "rows and columns of a course"},
           std::vector<long>{static_cast<long>(h_rows), static_cast<long>(h_columns)}, {{2, {}}});
  root.put({"history", "1", "their course"}, course, {{course.size(), {}}});
}

/// The courses that a part keeps, all of one shape.
std::vector<ThinHistory> get_histories(const GroupReader& root) {
  std::vector<long> kept, shape;
  root.get("history_case", {root.length("history_case")}, kept);
  root.get("history_rows", {2}, shape);
  std::vector<double> course;
  const std::size_t values = root.length("history");
  root.get("history", {values}, course);
  if (kept.empty()) return {};
  const std::size_t each = values / kept.size();
  if (shape[0] < 1 || shape[1] < 1 || values % kept.size() != 0 ||
      static_cast<std::size_t>(shape[0]) > each ||
      each / static_cast<std::size_t>(shape[0]) != static_cast<std::size_t>(shape[1]) ||
      each % static_cast<std::size_t>(shape[0]) != 0)
    root.damaged("history", "has another shape than it should");
  using Rows = Eigen::Array<double, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;
  std::vector<ThinHistory> histories;
  for (std::size_t k = 0; k < kept.size(); ++k)
    histories.push_back({kept[k], Eigen::Map<const Rows>(course.data() + k * each, shape[0], shape[1])});
  return histories;
}

SweepPart get_part(const GroupReader& root) {
  SweepPart part;
  part.fingerprint = root.text_attribute("fingerprint");
  std::vector<long> first, failed;
  root.get("first_case", {}, first);
  part.first_case = first.front();
  const GroupReader::Shape lengths = root.shape("values");
  if (lengths.size() != 2) root.damaged("values", "has another shape than it should");
  std::vector<double> values;
  root.get("values", lengths, values);
  part.values = Eigen::Map<const decltype(part.values)>(values.data(), static_cast<Eigen::Index>(lengths[0]),
                                                        static_cast<Eigen::Index>(lengths[1]));
  // Cases are counted in a long, the last one of the part too.
  if (part.first_case < 1 || part.first_case > std::numeric_limits<long>::max() - part.values.rows())
    root.damaged("first_case", "is no number of a case");
  const auto of_this_part = [&](long number) {
    return number >= part.first_case && number < part.first_case + part.values.rows();
  };
  std::vector<std::string> messages;
  root.get("failed_case", {root.length("failed_case")}, failed);
  root.get("message", {failed.size()}, messages);
  for (std::size_t k = 0; k < failed.size(); ++k) {
    if (!of_this_part(failed[k])) root.damaged("failed_case", "names a case that is not of this part");
    part.failures.push_back({failed[k], messages[k]});
  }
  part.histories = get_histories(root);
  for (const ThinHistory& history : part.histories) {
    if (!of_this_part(history.case_number))
      root.damaged("history_case", "names a case that is not of this part");
  }
  return part;
}

}  // namespace

void write_sweep_part(const std::string& path, const SweepPart& part) {
  write_hdf5_file(path, "part", [&](const H5::H5File& file) { put_part(file, part); });
}

SweepPart read_sweep_part(const std::string& path) {
  return sweep_part_of(read_stored_file(path, part_file), path);
}

SweepPart sweep_part_of(const StoredGroup& file, const std::string& path) {
  const GroupReader root(file, part_file, path);
  if (!root.has_attribute("file_type") || root.text_attribute("file_type") != part_file.file_type)
    throw base::FileError(path, "is no part of a sweep");
  return get_part(root);
}

}  // namespace dullcast::storage
