#include "engine/base/plain_text.hpp"

#include <cstdint>
#include <cstdio>

#include "engine/base/number_text.hpp"

namespace dullcast::base {
namespace {

/// One character of UTF-8: how many bytes (0: the bytes are none) and its number.
struct Character {
  std::size_t bytes = 0;
  std::uint32_t number = 0;
};

Character character_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[at + i]); };
  const unsigned first = byte(0);
  if (first < 0x80) return {1, first};
  const std::size_t bytes = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || at + bytes > text.size()) return {};
  std::uint32_t number = first & (0xFFu >> (bytes + 1));
  for (std::size_t i = 1; i < bytes; ++i) {
    if ((byte(i) & 0xC0u) != 0x80u) return {};
    number = (number << 6) | (byte(i) & 0x3Fu);
  }
  const bool overlong = (bytes == 3 && number < 0x800) || (bytes == 4 && number < 0x10000);
  const bool surrogate = number >= 0xD800 && number <= 0xDFFF;
  if (overlong || surrogate || number > 0x10FFFF) return {};
  return {bytes, number};
}

bool unseen(std::uint32_t number) {
  const bool control = number < 0x20 || (number >= 0x7F && number < 0xA0);
  const bool separator = number == 0x2028 || number == 0x2029;
  // Embeddings, overrides, isolates and marks of direction: what follows them may be shown in another order.
  const bool turns = (number >= 0x202A && number <= 0x202E) || (number >= 0x2066 && number <= 0x2069) ||
                     number == 0x200E || number == 0x200F || number == 0x061C;
  return control || separator || turns;
}

bool is_number(std::string_view text) {
  if (!text.empty() && text.front() == '+') text.remove_prefix(1);
  double value = 0.0;
  const auto [end, error] = read_number(text.data(), text.data() + text.size(), value);
  return error == std::errc() && end == text.data() + text.size();
}

}  // namespace

std::size_t first_not_utf8(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const Character next = character_at(text, at);
    if (next.bytes == 0) return at;
    at += next.bytes;
  }
  return std::string_view::npos;
}

bool inside_character(std::string_view text, std::size_t at) {
  return at < text.size() && (static_cast<unsigned char>(text[at]) & 0xC0u) == 0x80u;
}

bool is_plain(std::string_view text) {
  for (std::size_t at = 0; at < text.size();) {
    const Character next = character_at(text, at);
    if (next.bytes == 0 || unseen(next.number)) return false;
    at += next.bytes;
  }
  return true;
}

std::string plain(std::string_view text) {
  std::string told;
  for (std::size_t at = 0; at < text.size();) {
    const Character next = character_at(text, at);
    const std::size_t bytes = next.bytes == 0 ? 1 : next.bytes;
    if (next.bytes > 0 && !unseen(next.number)) {
      told += text.substr(at, bytes);
    } else if (text[at] == '\n') {
      told += "\\n";
    } else if (text[at] == '\t') {
      told += "\\t";
    } else {
      for (std::size_t i = at; i < at + bytes; ++i) {
        char escape[8];
        std::snprintf(escape, sizeof escape, "\\x%02x",
                      static_cast<unsigned>(static_cast<unsigned char>(text[i])));
        told += escape;
      }
    }
    at += bytes;
  }
  return told;
}

std::string plain_lines(std::string_view text) {
  std::string told;
  for (std::size_t begin = 0;;) {
    const std::size_t end = text.find('\n', begin);
    told += plain(text.substr(begin, end - begin));
    if (end == std::string_view::npos) return told;
    told += '\n';
    begin = end + 1;
  }
}

std::string csv_cell(std::string_view text) {
  std::string cell = plain(text);
  const bool formula = !cell.empty() && std::string_view("=+-@").find(cell.front()) != std::string_view::npos;
  if (formula && !is_number(cell)) cell.insert(cell.begin(), '\'');
  if (cell.find_first_of(",\"") == std::string::npos) return cell;
  std::string quoted = "\"";
  for (const char letter : cell) {
    if (letter == '"') quoted += '"';
    quoted += letter;
  }
  return quoted + "\"";
}

}  // namespace dullcast::base
