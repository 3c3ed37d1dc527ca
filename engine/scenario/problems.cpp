#include "engine/scenario/problems.hpp"

#include <algorithm>
#include <cstdio>
#include <tuple>

namespace dullcast {

std::string Warning::message() const {
  std::string result = location.file;
  if (location.line > 0) {
    result += ":" + std::to_string(location.line) + ":" + std::to_string(location.column);
  }
  result += ": ";
  if (!key.empty()) result += key + ": ";
  return result + text;
}

namespace {
std::string joined(const std::vector<std::string>& messages) {
  std::string result;
  for (const auto& message : messages) {
    if (!result.empty()) result += "\n";
    result += message;
  }
  return result;
}
}  // namespace

ScenarioErrors::ScenarioErrors(std::vector<std::string> messages)
    : std::runtime_error(joined(messages)), messages_(std::move(messages)) {}

void Problems::error(const Location& location, std::string key, std::string text) {
  errors_.push_back({location, std::move(key), std::move(text)});
}

void Problems::warn(const Location& location, std::string key, std::string text) {
  warnings_.push_back({location, std::move(key), std::move(text)});
}

void Problems::throw_if_any() const {
  if (errors_.empty()) return;
  auto sorted = errors_;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Warning& one, const Warning& other) {
    return std::tie(one.location.file, one.location.line, one.location.column) <
           std::tie(other.location.file, other.location.line, other.location.column);
  });
  std::vector<std::string> messages;
  for (const auto& problem : sorted) messages.push_back(problem.message());
  throw ScenarioErrors(std::move(messages));
}

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

std::string plain_number(double value) {
  char buffer[40];
  std::snprintf(buffer, sizeof buffer, "%.6g", value);
  return buffer;
}

}  // namespace dullcast
