#pragma once

#include <cstdio>
#include <stdexcept>
#include <string>

namespace dullcast {

/// Throws std::domain_error with one sentence: "function: what (got value)".
[[noreturn]] inline void throw_domain_error(const char* function, const char* what, double value) {
  char digits[32];
  std::snprintf(digits, sizeof digits, "%.9g", value);
  throw std::domain_error(std::string(function) + ": " + what + " (got " + digits + ")");
}

/// Refuses a value unless `holds`, which is false for any comparison with a NaN.
inline void require_domain(bool holds, const char* function, const char* what, double value) {
  if (!holds) throw_domain_error(function, what, value);
}

}  // namespace dullcast
