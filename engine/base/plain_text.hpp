#pragma once

#include <string>
#include <string_view>

/// Text from files and people, on its way to a terminal, a label or a table.
namespace dullcast::base {

/// Where text stops being UTF-8 (RFC 3629: no overlong forms, no surrogates, nothing past U+10FFFF), counted
/// in bytes from 0; npos when all of it is.
std::size_t first_not_utf8(std::string_view text);

/// Whether the byte at `at` goes on with a character that began before it (UTF-8: it begins with the bits
/// 10); false at the end.
bool inside_character(std::string_view text, std::size_t at);

/// Whether a person who looks at the text sees all of it: UTF-8 without control characters (C0 with tabs and
/// ends of lines, DEL, C1), line and paragraph separators, or marks that turn the direction of writing.
bool is_plain(std::string_view text);

/// The text with all that is not plain told instead of sent: an end of a line is "\n", a tab "\t", any other
/// byte
/// "\x1b". What is plain comes back as it was, so paths and titles read as they were given.
std::string plain(std::string_view text);

/// The same line by line: ends of lines stay. For messages of several lines that the program itself put
/// together.
std::string plain_lines(std::string_view text);

/// A cell of comma-separated values (RFC 4180): plain, in quotes where it holds a comma or a quote; and text
/// that a spreadsheet would take for a formula (it begins with = + - @ and is no number) gets an apostrophe
/// before it.
std::string csv_cell(std::string_view text);

}  // namespace dullcast::base
