#pragma once

#include <cstddef>
#include <string>
#include <vector>

namespace dullcast {

/// Puts `bytes` at `path`, all of them or none: written under a temporary name in the same folder, synced to
/// the disk, then renamed over `path`, so a reader never sees half a file and an old file survives a failure.
/// A symbolic link is followed. Throws ResultError (no such folder, no permission, disk full, path is a
/// folder or a device ...); the temporary is gone by then.
void write_whole_file(const std::string& path, const std::vector<std::byte>& bytes);

/// All bytes of the file at `path`. Throws ResultError when it does not exist, is a folder or cannot be read.
std::vector<std::byte> read_whole_file(const std::string& path);

}  // namespace dullcast
