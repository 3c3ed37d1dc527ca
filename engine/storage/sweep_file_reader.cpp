#include <algorithm>
#include <sstream>

#include "engine/base/file_error.hpp"
#include "engine/storage/group_reader.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/storage/sweep_format.hpp"

namespace dullcast::storage {
namespace {

/// An open sweep, of whose datasets those under `groups` are read.
class SweepReader {
 public:
  SweepReader(const std::string& path, const std::vector<std::string>& groups, Seal seal = Seal::required)
      : SweepReader(read_stored_file(path, sweep_file, seal,
                                     [&](const std::string& dataset) {
                                       return std::any_of(
                                           groups.begin(), groups.end(), [&](const std::string& group) {
                                             return dataset.compare(0, group.size(), group) == 0;
                                           });
                                     }),
                    path) {}
  SweepReader(StoredGroup file, const std::string& path) : path_(path), tree_(std::move(file)) {
    const std::vector<int> version = root().version_of_kind();
    if (version[0] != sweep_format::major_version) {
      throw base::FileError(
          path,
          "this sweep has format " + std::to_string(version[0]) + "." + std::to_string(version[1]) +
              "; this program reads format " + std::to_string(sweep_format::major_version) +
              (version[0] > sweep_format::major_version ? ": use a newer dullcast" : ": run its plan again"));
    }
  }
  SweepReader(const SweepReader&) = delete;
  SweepReader& operator=(const SweepReader&) = delete;

  GroupReader root() const { return {tree_, sweep_file, path_}; }

 private:
  std::string path_;
  StoredGroup tree_;
};

std::vector<std::string> parted(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> words;
  for (std::string word; stream >> word;) words.push_back(word);
  return words;
}

SweepColumn labelled(const GroupReader& group, const std::string& name) {
  SweepColumn column;
  column.name = name;
  column.units = group.text_attribute_of(name, "units");
  column.meaning = group.text_attribute_of(name, "long_name");
  return column;
}

void read_columns(const GroupReader& runs, SweepTable& table) {
  const auto cases = static_cast<std::size_t>(table.cases());
  for (const std::string& name : runs.names()) {
    if (!runs.has_attribute_of(name, "role")) continue;  // case, point and draw, which the counts give
    SweepColumn column = labelled(runs, name);
    const std::string role = runs.text_attribute_of(name, "role");
    const auto found = std::find(std::begin(sweep_format::roles), std::end(sweep_format::roles), role);
    if (found == std::end(sweep_format::roles)) runs.damaged(name, "has an unknown role");
    column.role = static_cast<ColumnRole>(found - std::begin(sweep_format::roles));
    if (runs.has_attribute_of(name, "flag_meanings"))
      column.words = parted(runs.text_attribute_of(name, "flag_meanings"));
    std::vector<double> values;
    runs.get(name, {cases}, values);
    column.values = Eigen::Map<const Eigen::ArrayXd>(values.data(), static_cast<Eigen::Index>(values.size()));
    table.columns.push_back(std::move(column));
  }
}

void read_counts(const GroupReader& root, SweepTable& table) {
  table.points = root.long_attribute("points");
  table.draws = root.long_attribute("draws");
  const std::size_t cases = root.subgroup("runs").length("case");
  // Written so that no product is out of range.
  if (table.points < 1) root.damaged("points", "is no number of points");
  if (table.draws < 1) root.damaged("draws", "is no number of draws");
  if (cases % static_cast<std::size_t>(table.points) != 0 ||
      cases / static_cast<std::size_t>(table.points) != static_cast<std::size_t>(table.draws))
    root.damaged("runs/case", "does not hold the points and draws that the sweep states");
}

void read_failures(const GroupReader& group, SweepTable& table) {
  const std::size_t count = group.length("failed_case");
  std::vector<long> cases;
  std::vector<std::string> messages;
  group.get("failed_case", {count}, cases);
  group.get_lettered("message", count, sweep_format::message_length, messages);
  for (std::size_t k = 0; k < count; ++k) {
    if (cases[k] < 1 || cases[k] > table.cases())
      group.damaged("failed_case", "names a case that is not there");
    table.failures.push_back({cases[k], messages[k]});
  }
}

SweepTable table_of(const GroupReader& root) {
  SweepTable table;
  table.title = root.text_attribute("title");
  table.currency = root.text_attribute("currency");
  table.design = root.text_attribute("design");
  table.draws_alike = root.int_attribute("draws_alike").front() != 0;
  read_counts(root, table);
  read_columns(root.subgroup("runs"), table);
  read_failures(root.subgroup("failures"), table);
  return table;
}

SweepCourses courses_of(const GroupReader& root) {
  SweepCourses courses;
  if (!root.has_group("histories")) return courses;
  const GroupReader group = root.subgroup("histories");
  const std::size_t kept = group.length("kept_case"), rows = group.length("row");
  group.get("kept_case", {kept}, courses.cases);
  courses.rows = static_cast<long>(rows);
  for (const std::string& name : group.names()) {
    if (name == "kept_case" || name == "row") continue;
    courses.columns.push_back(labelled(group, name));
    std::vector<double> values;
    group.get(name, {kept, rows}, values);
    courses.columns.back().values =
        Eigen::Map<const Eigen::ArrayXd>(values.data(), static_cast<Eigen::Index>(values.size()));
  }
  return courses;
}

}  // namespace

SweepTable read_sweep(const std::string& path, Seal seal) {
  return table_of(SweepReader(path, {"/runs/", "/failures/"}, seal).root());
}

SweepTable sweep_of(const StoredGroup& file, const std::string& path) {
  return table_of(SweepReader(file, path).root());
}

std::string read_sweep_manifest(const std::string& path) {
  return SweepReader(path, {}).root().long_text_attribute("beginning");
}

SweepCourses read_sweep_courses(const std::string& path) {
  return courses_of(SweepReader(path, {"/histories/"}).root());
}

SweepCourses sweep_courses_of(const StoredGroup& file, const std::string& path) {
  return courses_of(SweepReader(file, path).root());
}

std::vector<SweepColumn> read_sweep_history(const std::string& path, long case_number) {
  SweepCourses courses = read_sweep_courses(path);
  const auto found = std::find(courses.cases.begin(), courses.cases.end(), case_number);
  if (found == courses.cases.end())
    throw base::FileError(path, "did not keep the course of case " + std::to_string(case_number));
  const long at = found - courses.cases.begin();
  for (SweepColumn& column : courses.columns)
    column.values = column.values.segment(at * courses.rows, courses.rows).eval();
  return courses.columns;
}

}  // namespace dullcast::storage
