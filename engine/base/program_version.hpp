#pragma once

#include <string>

namespace dullcast::base {

/// This program's version, "0.1.0".
std::string program_version();

/// The commit it was built from, twelve hexadecimal digits, with "+changes" behind it where files that the
/// commit holds had been changed; "unknown" outside a checkout. Taken when the program was built, not when
/// the build was configured.
std::string program_commit();

/// The day of that commit, ISO 8601; outside a checkout the day on which the program was built.
std::string program_day();

}  // namespace dullcast::base
