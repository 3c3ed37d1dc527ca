#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "engine/base/file_error.hpp"
#include "engine/storage/checksum.hpp"
#include "engine/storage/group_reader.hpp"
#include "engine/storage/hdf5_use.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/storage/sweep_format.hpp"

namespace dullcast::storage {
namespace {

/// The file's bytes must agree with their checksum before HDF5 is let at them: a wrong byte can crash it.
void verify_file_checksum(const std::string& path) {
  std::ifstream file(path, std::ios::binary | std::ios::ate);
  if (!file) throw base::FileError(path, "cannot open this file");
  const auto end = static_cast<std::streamoff>(file.tellg());
  constexpr std::streamoff checksum_length = 16;
  if (end < checksum_length) throw base::FileError(path, "is no sweep: it is too short");
  const auto read = [&](std::size_t at, void* bytes, std::size_t count) {
    file.clear();
    file.seekg(static_cast<std::streamoff>(at));
    file.read(static_cast<char*>(bytes), static_cast<std::streamsize>(count));
    return static_cast<std::size_t>(file.gcount());
  };
  const auto before = static_cast<std::size_t>(end - checksum_length);
  std::vector<std::byte> found(checksum_length);
  read(before, found.data(), found.size());
  if (found != checksum_of(before, read)) {
    throw base::FileError(path, "is damaged, or no sweep: its bytes do not agree with a checksum at its end");
  }
}

class SweepReader {
 public:
  explicit SweepReader(const std::string& path) : path_(path) {
    verify_file_checksum(path);
    try {
      file_ = H5::H5File(path, H5F_ACC_RDONLY);
      const GroupReader root = group("/");
      if (!root.has_attribute("file_type") || root.text_attribute("file_type") != sweep_format::file_type)
        throw base::FileError(path, "is no sweep");
      const std::vector<int> version = root.int_attribute("format_version");
      if (version.size() != 2 || version[0] != sweep_format::major_version)
        throw base::FileError(path, "has another version of the format than this program knows");
    } catch (const H5::Exception&) {
      throw base::FileError(path, "is no HDF5 file");
    }
  }

  GroupReader group(const std::string& name) {
    return {file_.openGroup(name), name == "/" ? "" : name, path_};
  }
  H5::H5File& file() { return file_; }
  const std::string& path() const { return path_; }

  long number(const std::string& name) {
    long value = 0;
    file_.openGroup("/").openAttribute(name).read(H5::PredType::NATIVE_LONG, &value);
    return value;
  }

 private:
  std::string path_;
  H5::H5File file_;
};

std::string text_of(const H5::DataSet& dataset, const std::string& name) {
  const H5::Attribute attribute = dataset.openAttribute(name);
  std::string text;
  attribute.read(attribute.getDataType(), text);
  return text;
}

std::vector<std::string> parted(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> words;
  for (std::string word; stream >> word;) words.push_back(word);
  return words;
}

/// Names of a group's datasets as they were made.
std::vector<std::string> names_in(const H5::Group& group) {
  std::vector<std::string> names;
  for (hsize_t k = 0; k < group.getNumObjs(); ++k) {
    char name[256] = {};
    H5Lget_name_by_idx(group.getId(), ".", H5_INDEX_CRT_ORDER, H5_ITER_INC, k, name, sizeof name,
                       H5P_DEFAULT);
    names.emplace_back(name);
  }
  return names;
}

SweepColumn labelled(const H5::DataSet& dataset, const std::string& name) {
  SweepColumn column;
  column.name = name;
  column.units = text_of(dataset, "units");
  column.meaning = text_of(dataset, "long_name");
  return column;
}

void read_columns(SweepReader& reader, SweepTable& table) {
  const H5::Group runs = reader.file().openGroup("/runs");
  const auto cases = static_cast<hsize_t>(table.cases());
  for (const std::string& name : names_in(runs)) {
    const H5::DataSet dataset = runs.openDataSet(name);
    if (!dataset.attrExists("role")) continue;  // case, point and draw, which the counts give
    SweepColumn column = labelled(dataset, name);
    const std::string role = text_of(dataset, "role");
    const auto found = std::find(std::begin(sweep_format::roles), std::end(sweep_format::roles), role);
    if (found == std::end(sweep_format::roles))
      throw base::FileError(reader.path(), name + " has an unknown role");
    column.role = static_cast<ColumnRole>(found - std::begin(sweep_format::roles));
    if (dataset.attrExists("flag_meanings")) column.words = parted(text_of(dataset, "flag_meanings"));
    std::vector<double> values;
    reader.group("/runs").get(name, {cases}, values);
    column.values = Eigen::Map<const Eigen::ArrayXd>(values.data(), static_cast<Eigen::Index>(values.size()));
    table.columns.push_back(std::move(column));
  }
}

void read_failures(SweepReader& reader, SweepTable& table) {
  const GroupReader group = reader.group("/failures");
  const hsize_t count = group.length("failed_case");
  if (count == 0) return;
  std::vector<long> cases;
  group.get("failed_case", {count}, cases);
  constexpr std::size_t length = sweep_format::message_length;
  std::vector<char> letters(count * length);
  reader.file()
      .openGroup("/failures")
      .openDataSet("message")
      .read(letters.data(), H5::StrType(H5::PredType::C_S1, 1));
  for (std::size_t k = 0; k < count; ++k) {
    const char* from = letters.data() + k * length;
    table.failures.push_back({cases[k], std::string(from, std::find(from, from + length, '\0'))});
  }
}

/// Runs `work` on the open file, with HDF5's complaints as sentences.
template <class Work>
auto reading(const std::string& path, const Work& work) {
  const Hdf5Use use;
  try {
    SweepReader reader(path);
    return work(reader);
  } catch (const H5::Exception& error) {
    throw base::FileError(path, "is damaged (" + error.getDetailMsg() + ")");
  }
}

}  // namespace

SweepTable read_sweep(const std::string& path) {
  return reading(path, [&](SweepReader& reader) {
    SweepTable table;
    const GroupReader root = reader.group("/");
    table.title = root.text_attribute("title");
    table.currency = root.text_attribute("currency");
    table.design = root.text_attribute("design");
    table.draws_alike = root.int_attribute("draws_alike").at(0) != 0;
    table.points = reader.number("points");
    table.draws = reader.number("draws");
    read_columns(reader, table);
    read_failures(reader, table);
    return table;
  });
}

std::string read_sweep_manifest(const std::string& path) {
  return reading(path, [&](SweepReader& reader) { return reader.group("/").text_attribute("beginning"); });
}

std::vector<SweepColumn> read_sweep_history(const std::string& path, long case_number) {
  return reading(path, [&](SweepReader& reader) {
    const GroupReader group = reader.group("/histories");
    const hsize_t kept = group.length("kept_case"), rows = group.length("row");
    std::vector<long> cases;
    group.get("kept_case", {kept}, cases);
    const auto found = std::find(cases.begin(), cases.end(), case_number);
    if (found == cases.end())
      throw base::FileError(path, "did not keep the course of case " + std::to_string(case_number));
    const auto at = static_cast<std::size_t>(found - cases.begin());
    const H5::Group histories = reader.file().openGroup("/histories");
    std::vector<SweepColumn> columns;
    for (const std::string& name : names_in(histories)) {
      if (name == "kept_case" || name == "row") continue;
      columns.push_back(labelled(histories.openDataSet(name), name));
      std::vector<double> values;
      group.get(name, {kept, rows}, values);
      columns.back().values =
          Eigen::Map<const Eigen::ArrayXd>(values.data() + at * rows, static_cast<Eigen::Index>(rows));
    }
    return columns;
  });
}

}  // namespace dullcast::storage
