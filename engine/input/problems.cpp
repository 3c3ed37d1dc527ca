#include "engine/input/problems.hpp"

#include <algorithm>
#include <tuple>

namespace dullcast::input {

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

void Problems::error(const scenario::Location& location, std::string key, std::string text) {
  errors_.push_back({location, std::move(key), std::move(text)});
}

void Problems::warn(const scenario::Location& location, std::string key, std::string text) {
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

}  // namespace dullcast::input
