#pragma once

#include <filesystem>
#include <string>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

/// Scenarios and outcomes that no engine made, for testing the files alone.
namespace dullcast::storage::made_up {

/// A scenario whose bit has the given number of cutters in the order of their radius.
scenario::Scenario scenario(int cutters);

/// An outcome whose numbers follow simple rules, known to open_elsewhere.py too.
simulation::RunOutcome plain_outcome(int cutters, int rows);

/// An outcome of everything that a file may lose: NaN with a payload, infinities, -0, the smallest and
/// largest doubles, empty and odd texts, missing values.
simulation::RunOutcome awkward_outcome(int cutters);

/// A new empty folder, removed with all it holds.
class Folder {
 public:
  Folder();
  ~Folder();
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  std::string operator/(const std::string& name) const { return (path_ / name).string(); }
  const std::filesystem::path& path() const { return path_; }
  /// Names of what is in it.
  std::vector<std::string> names() const;

 private:
  std::filesystem::path path_;
};

}  // namespace dullcast::storage::made_up
