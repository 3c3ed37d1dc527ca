#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
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
  /// `file:line:column: key: text`, plain (base::plain), so that nothing a file holds acts on a terminal;
  /// line and column are left out where there are none (a --set, a default).
  std::string message() const;
};

/// The most errors, and the most warnings, that are told one by one.
inline constexpr std::size_t most_told = 50;

/// Thrown when a scenario or a library cannot be used: the errors found, each in the form above and plain, in
/// the order of the file. what() holds them all, one a line. Past `most_told` the last message says how many
/// more there are.
class ScenarioErrors : public std::runtime_error {
 public:
  explicit ScenarioErrors(const std::vector<std::string>& messages, std::size_t untold = 0);
  const std::vector<std::string>& messages() const { return messages_; }
  /// How many errors there are, told or not.
  std::size_t count() const { return count_; }

 private:
  std::vector<std::string> messages_;
  std::size_t count_;
};

/// The text, or its two ends when it has more than `most` bytes (20 at least), cut between characters.
std::string shortened(std::string_view text, std::size_t most);
inline constexpr std::size_t longest_quoted = 120;

/// Collects errors and warnings while a scenario is read. One per reading; not for several threads.
class Problems {
 public:
  void error(const scenario::Location& location, const std::string& key, const std::string& text);
  void warn(const scenario::Location& location, const std::string& key, const std::string& text);
  /// Adds words to the end of the last error, where it was kept.
  void say_more(std::string_view words);
  bool any_error() const { return !errors_.empty(); }
  std::size_t error_count() const { return error_count_; }
  /// Whether so many errors were found that further ones are only counted: no work need go into their words.
  bool only_counts() const { return error_count_ >= most_kept; }
  /// The first errors found; error_count() counts all.
  const std::vector<Warning>& errors() const { return errors_; }
  /// The first `most_told`, and one more that says how many others there were.
  const std::vector<Warning>& warnings() const { return warnings_; }
  /// Throws ScenarioErrors, sorted by place, when there is any error.
  void throw_if_any() const;

 private:
  static constexpr std::size_t most_kept = 1000;
  std::vector<Warning> errors_, warnings_;
  std::size_t error_count_ = 0, warning_count_ = 0;
};

}  // namespace dullcast::input
