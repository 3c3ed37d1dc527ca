#pragma once

/// What a byte of a value's text is, whatever the locale.
namespace dullcast::input {

inline bool blank(char c) {
  return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}
inline bool digit(char c) {
  return c >= '0' && c <= '9';
}
/// Bytes above ASCII belong to words: the micro sign, the degree sign.
inline bool letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || (c & '\x80') != 0;
}

}  // namespace dullcast::input
