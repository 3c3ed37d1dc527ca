#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "engine/base/dimension.hpp"
#include "engine/scenario/scenario.hpp"

/// Which keys readers know, told by the readers themselves: what they ask a map for, whether it is there or
/// not.
namespace dullcast::input {

/// What a reader takes a key's value for.
enum class AskedFor { anything, number, uncertain_number, whole_number, words, one_of, map, list };

struct KeyAsked {
  AskedFor kind = AskedFor::anything;
  const base::Dimension* wanted = nullptr;  // of a number
  base::Range range{};                      // of a number
  std::int64_t least = 0, most = 0;         // of a whole number
  std::vector<std::string> choices = {};    // of one_of
  bool operator==(const KeyAsked& other) const;
};

/// The keys that were asked for while one file was read, by their paths, in which a place in a list is a
/// star: "plan.*.flow". What is read of other files on the way is left out.
class KeysAsked {
 public:
  /// Of the file with this name, as messages have it.
  explicit KeysAsked(std::string file) : file_(std::move(file)) {}

  /// Keeps what was asked for at a path, once for each way of asking.
  void note(const scenario::Location& where, const std::string& path, KeyAsked asked);

  /// Every path with all that was asked of it.
  const std::map<std::string, std::vector<KeyAsked>>& all() const { return asked_; }

 private:
  std::string file_;
  std::map<std::string, std::vector<KeyAsked>> asked_;
};

}  // namespace dullcast::input
