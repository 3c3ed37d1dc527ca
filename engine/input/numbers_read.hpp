#pragma once

#include <map>
#include <string>

#include "engine/base/dimension.hpp"

namespace dullcast::input {

/// A number as a reader wanted it and found it.
struct NumberRead {
  const base::Dimension* wanted = nullptr;
  base::Range range{};
  double value = 0.0;  // SI
};

/// Whether a number lies in a range; NaN never does.
inline bool within(const base::Range& range, double number) {
  return number <= range.most && (range.least_itself ? number >= range.least : number > range.least);
}

/// The numbers that one reading took from its text, by their paths ("plan.0.flow"; always as the reader
/// itself says them, "column.layers.2.density"). What was left to its default is not among them.
class NumbersRead {
 public:
  void note(const std::string& path, const NumberRead& number) {
    const auto [place, is_new] = numbers_.try_emplace(path, number);
    if (!is_new) place->second.wanted = nullptr;
  }
  /// Null where nothing was read at the path, or more than once: then it cannot be told what the number is
  /// for.
  const NumberRead* find(const std::string& path) const {
    const auto found = numbers_.find(path);
    return found == numbers_.end() || !found->second.wanted ? nullptr : &found->second;
  }
  /// Whether the text states a number there.
  bool states(const std::string& path) const { return numbers_.contains(path); }
  /// Every path with what was read there first.
  const std::map<std::string, NumberRead>& all() const { return numbers_; }

 private:
  std::map<std::string, NumberRead> numbers_;
};

}  // namespace dullcast::input
