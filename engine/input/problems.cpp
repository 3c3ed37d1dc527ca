#include "engine/input/problems.hpp"

#include <algorithm>
#include <tuple>

#include "engine/base/plain_text.hpp"

namespace dullcast::input {

namespace {

// Longer than any message of ours, which lists all keys of a map at most.
constexpr std::size_t longest_text = 4000;
constexpr std::size_t longest_told_key = 300;

std::string joined(const std::vector<std::string>& messages) {
  std::string result;
  for (const auto& message : messages) {
    if (!result.empty()) result += "\n";
    result += message;
  }
  return result;
}

std::vector<std::string> told(std::vector<std::string> messages, std::size_t untold) {
  for (std::string& message : messages) message = base::plain(message);
  if (untold > 0) messages.push_back("and " + std::to_string(untold) + " more errors, not shown");
  return messages;
}

}  // namespace

std::string shortened(std::string_view text, std::size_t most) {
  if (text.size() <= most) return std::string(text);
  std::size_t head = most - most / 4 - 5, tail = text.size() - most / 4;
  while (base::inside_character(text, head)) --head;
  while (base::inside_character(text, tail)) ++tail;
  return std::string(text.substr(0, head)) + " ... " + std::string(text.substr(tail));
}

std::string Warning::message() const {
  std::string result = location.file;
  if (location.line > 0) {
    result += ":" + std::to_string(location.line) + ":" + std::to_string(location.column);
  }
  result += ": ";
  if (!key.empty()) result += key + ": ";
  return base::plain(result + text);
}

ScenarioErrors::ScenarioErrors(const std::vector<std::string>& messages, std::size_t untold)
    : std::runtime_error(joined(told(messages, untold))),
      messages_(told(messages, untold)),
      count_(messages.size() + untold) {}

void Problems::error(const scenario::Location& location, const std::string& key, const std::string& text) {
  ++error_count_;
  if (errors_.size() < most_kept)
    errors_.push_back({location, shortened(key, longest_told_key), shortened(text, longest_text)});
}

void Problems::say_more(std::string_view words) {
  if (!errors_.empty() && error_count_ == errors_.size()) errors_.back().text += words;
}

void Problems::warn(const scenario::Location& location, const std::string& key, const std::string& text) {
  ++warning_count_;
  if (warnings_.size() < most_told) {
    warnings_.push_back({location, shortened(key, longest_told_key), shortened(text, longest_text)});
    return;
  }
  if (warnings_.size() == most_told) warnings_.push_back({{location.file, 0, 0}, "", ""});
  warnings_.back().text = "has " + std::to_string(warning_count_ - most_told) + " more remarks, not shown";
}

void Problems::throw_if_any() const {
  if (errors_.empty()) return;
  auto sorted = errors_;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Warning& one, const Warning& other) {
    return std::tie(one.location.file, one.location.line, one.location.column) <
           std::tie(other.location.file, other.location.line, other.location.column);
  });
  std::vector<std::string> messages;
  for (const auto& problem : sorted) {
    if (messages.size() < most_told) messages.push_back(problem.message());
  }
  const std::size_t told = messages.size();
  throw ScenarioErrors(messages, error_count_ - told);
}

}  // namespace dullcast::input
