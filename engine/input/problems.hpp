#pragma once

#include <stdexcept>
#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"

/// What can be wrong with a scenario, said with its place: `file:line:column: key: what is wrong, what would
/// be right`. All of a file's errors are collected and thrown at once.
namespace dullcast::input {

/// One remark about a scenario. key is the path of the value ("plan.0.flow", counted from 0 as in --set); may
/// be empty when the remark is about the file as a whole.
struct Warning {
  scenario::Location location;
  std::string key;
  std::string text;
  /// `file:line:column: key: text`; line and column are left out where there are none (a --set, a default).
  std::string message() const;
};

/// Thrown when a scenario or a library cannot be used: every error found, each in the form above, in the
/// order of the file. what() holds them all, one a line.
class ScenarioErrors : public std::runtime_error {
 public:
  explicit ScenarioErrors(std::vector<std::string> messages);
  const std::vector<std::string>& messages() const { return messages_; }

 private:
  std::vector<std::string> messages_;
};

/// Collects errors and warnings while a scenario is read. One per reading; not for several threads.
class Problems {
 public:
  void error(const scenario::Location& location, std::string key, std::string text);
  void warn(const scenario::Location& location, std::string key, std::string text);
  bool any_error() const { return !errors_.empty(); }
  std::size_t error_count() const { return errors_.size(); }
  const std::vector<Warning>& errors() const { return errors_; }
  const std::vector<Warning>& warnings() const { return warnings_; }
  /// Throws ScenarioErrors, sorted by place, when there is any error.
  void throw_if_any() const;

 private:
  std::vector<Warning> errors_, warnings_;
};

}  // namespace dullcast::input
