#pragma once

#include <string>

namespace dullcast::storage {

/// Reads a run's, a sweep's or a shop's file that has no checksum at its end, in the guarded way of
/// read_stored_file, and writes a copy with one to `to`, whole or not at all: for files that another program
/// has changed, and that are to be trusted. Returns the word for what it is ("dullcast run"). Throws
/// FileError: the file ends with a checksum already, right or wrong; it cannot be read as any of them; or the
/// copy cannot be written.
std::string write_sealed_copy(const std::string& from, const std::string& to);

}  // namespace dullcast::storage
