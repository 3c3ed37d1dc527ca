#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace dullcast::base {

/// The candidate nearest to `word` by edit distance (Damerau-Levenshtein, adjacent swaps counting one), or
/// empty when none is near enough to be a slip of the pen (more than a third of the word plus one).
std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates);

/// "a, b or c".
std::string one_of(const std::vector<std::string>& words);

/// A name as a person says it: "hard_sandstone" is hard sandstone.
std::string spoken(std::string name);

/// A number as a person would write it: up to six significant digits.
std::string plain_number(double value);

}  // namespace dullcast::base
