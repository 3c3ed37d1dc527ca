#include "engine/storage/sweep_part_file.hpp"

#include "engine/base/file_error.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/storage/checksum.hpp"
#include "engine/storage/group_reader.hpp"
#include "engine/storage/group_writer.hpp"
#include "engine/storage/hdf5_file_aside.hpp"
#include "engine/storage/hdf5_use.hpp"
#include "engine/storage/open_in_memory.hpp"

namespace dullcast::storage {
namespace {

constexpr const char* part_type = "dullcast sweep part";

hsize_t length_of(Eigen::Index count) {
  return static_cast<hsize_t>(count);
}

void put_part(const H5::H5File& file, const SweepPart& part) {
  const GroupWriter root{file.openGroup("/")};
  root.attribute("file_type", part_type);
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

SweepPart get_part(const GroupReader& root) {
  SweepPart part;
  part.fingerprint = root.text_attribute("fingerprint");
  std::vector<long> first, failed, kept, shape;
  root.get("first_case", {}, first);
  part.first_case = first.at(0);
  const std::vector<hsize_t> lengths = root.shape("values");
  if (lengths.size() != 2) root.damaged("values", "has another shape");
  std::vector<double> values;
  root.get("values", {lengths[0], lengths[1]}, values);
  part.values = Eigen::Map<const decltype(part.values)>(values.data(), static_cast<Eigen::Index>(lengths[0]),
                                                        static_cast<Eigen::Index>(lengths[1]));
  std::vector<std::string> messages;
  root.get("failed_case", {root.length("failed_case")}, failed);
  root.get("message", {failed.size()}, messages);
  for (std::size_t k = 0; k < failed.size(); ++k) part.failures.push_back({failed[k], messages[k]});
  root.get("history_case", {root.length("history_case")}, kept);
  root.get("history_rows", {2}, shape);
  const auto each = static_cast<std::size_t>(shape[0] * shape[1]);
  std::vector<double> course;
  root.get("history", {kept.size() * each}, course);
  for (std::size_t k = 0; k < kept.size(); ++k) {
    ThinHistory history{kept[k], Eigen::ArrayXXd(shape[0], shape[1])};
    for (long r = 0; r < shape[0]; ++r) {
      for (long c = 0; c < shape[1]; ++c)
        history.values(r, c) = course[k * each + static_cast<std::size_t>(r * shape[1] + c)];
    }
    part.histories.push_back(std::move(history));
  }
  return part;
}

}  // namespace

void write_sweep_part(const std::string& path, const SweepPart& part) {
  Hdf5FileAside aside(path);
  try {
    const Hdf5Use use;
    put_part(aside.create(), part);
  } catch (const H5::Exception& error) {
    aside.check();
    throw base::FileError(path,
                          "nothing written: HDF5 could not make the part (" + error.getDetailMsg() + ")");
  }
  aside.keep();
}

SweepPart read_sweep_part(const std::string& path) {
  const std::vector<std::byte> bytes = base::read_whole_file(path);
  if (verify_checksum(bytes) != Checksum::intact)
    throw base::FileError(path, "is damaged: its bytes do not agree with its checksum");
  const Hdf5Use use;
  try {
    const H5::H5File file = open_in_memory(bytes);
    const GroupReader root(file.openGroup("/"), "", path);
    if (!root.has_attribute("file_type") || root.text_attribute("file_type") != part_type)
      throw base::FileError(path, "is no part of a sweep");
    return get_part(root);
  } catch (const H5::Exception& error) {
    throw base::FileError(path, "is damaged (" + error.getDetailMsg() + ")");
  }
}

}  // namespace dullcast::storage
