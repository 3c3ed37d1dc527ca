#pragma once

#include <charconv>
#include <string>

/// Decimal numbers as texts, the same whatever the machine's language and whichever standard library the
/// program is built with: some (that of WebAssembly here) lack the conversions of charconv for double.
namespace dullcast::base {

/// Reads the number that [first, last) starts with, as std::from_chars does: an optional '-', digits with an
/// optional point and exponent, or inf or nan in any case; no blanks, no '+', nothing hexadecimal. The
/// nearest double (ties to even) goes to `value`, which stays as it was on failure. Returns where the number
/// ends; ec is invalid_argument where there is none and result_out_of_range where no double is near it.
std::from_chars_result read_number(const char* first, const char* last, double& value);

/// The shortest text that reads back as `value`, as std::to_chars writes it.
std::string exact_number(double value);

/// Both by strtod and printf alone, which every C library has; for where charconv is incomplete, and for
/// the test that compares them with it.
std::from_chars_result read_number_by_c(const char* first, const char* last, double& value);
std::string exact_number_by_c(double value);

}  // namespace dullcast::base
