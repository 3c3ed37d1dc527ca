#pragma once

namespace dullcast::testing {

/// Whether this build is under a sanitizer, whose shadow takes more addresses than any bound on memory
/// leaves, and from which nothing is installed.
#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
inline constexpr bool sanitized = true;
#else
inline constexpr bool sanitized = false;
#endif

}  // namespace dullcast::testing
