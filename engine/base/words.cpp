#include "engine/base/words.hpp"

#include <algorithm>
#include <cstdio>

namespace dullcast::base {

std::string nearest_word(std::string_view word, const std::vector<std::string>& candidates) {
  constexpr std::size_t longest = 80;  // longer keys are no slip of the pen, and the table stays small
  if (word.empty() || word.size() > longest) return {};
  std::string best;
  std::size_t best_distance = word.size() / 3 + 2;
  for (const auto& candidate : candidates) {
    if (candidate.size() > longest) continue;
    const std::size_t rows = word.size(), columns = candidate.size();
    std::vector<std::vector<std::size_t>> distance(rows + 1, std::vector<std::size_t>(columns + 1, 0));
    for (std::size_t i = 0; i <= rows; ++i) distance[i][0] = i;
    for (std::size_t j = 0; j <= columns; ++j) distance[0][j] = j;
    for (std::size_t i = 1; i <= rows; ++i) {
      for (std::size_t j = 1; j <= columns; ++j) {
        const std::size_t swap = word[i - 1] == candidate[j - 1] ? 0 : 1;
        auto& here = distance[i][j];
        here = std::min({distance[i - 1][j] + 1, distance[i][j - 1] + 1, distance[i - 1][j - 1] + swap});
        if (i > 1 && j > 1 && word[i - 1] == candidate[j - 2] && word[i - 2] == candidate[j - 1]) {
          here = std::min(here, distance[i - 2][j - 2] + 1);
        }
      }
    }
    if (distance[rows][columns] < best_distance) {
      best_distance = distance[rows][columns];
      best = candidate;
    }
  }
  return best;
}

std::string one_of(const std::vector<std::string>& words) {
  std::string result;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) result += i + 1 == words.size() ? " or " : ", ";
    result += words[i];
  }
  return result;
}

std::string spoken(std::string name) {
  std::replace(name.begin(), name.end(), '_', ' ');
  return name;
}

std::string plain_number(double value) {
  char buffer[40];
  std::snprintf(buffer, sizeof buffer, "%.6g", value);
  return buffer;
}

}  // namespace dullcast::base
