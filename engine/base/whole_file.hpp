#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <vector>

namespace dullcast::base {

/// A file being written aside, under a temporary name in the folder where it is to stand. keep() syncs it and
/// gives it its name, so a reader never sees half a file and an old file survives a failure; without keep()
/// it is removed again. A symbolic link is followed. Everything throws ResultError (no such folder, no
/// permission, disk full, path is a folder or a device ...), which names `path`.
class FileAside {
 public:
  explicit FileAside(const std::string& path);
  ~FileAside();
  FileAside(const FileAside&) = delete;
  FileAside& operator=(const FileAside&) = delete;

  /// The temporary name, for a library that opens files by name.
  const std::string& name() const;
  /// Writes all bytes from `offset` on.
  void write_at(std::size_t offset, const void* bytes, std::size_t count);
  /// Reads up to `count` bytes from `offset`; returns how many there were.
  std::size_t read_at(std::size_t offset, void* bytes, std::size_t count) const;
  std::size_t size() const;
  void keep();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

/// Puts `bytes` at `path`, all of them or none: written under a temporary name in the same folder, synced to
/// the disk, then renamed over `path`, so a reader never sees half a file and an old file survives a failure.
/// A symbolic link is followed. Throws ResultError (no such folder, no permission, disk full, path is a
/// folder or a device ...); the temporary is gone by then.
void write_whole_file(const std::string& path, const std::vector<std::byte>& bytes);

/// Gives a whole file, synced, another name on the same disk, over what is there; the name reaches the disk
/// too. Throws ResultError.
void rename_synced(const std::string& from, const std::string& to);

/// All bytes of the file at `path`. Throws FileError when it does not exist, is a folder or a device, has
/// more than `most` bytes, or cannot be read.
std::vector<std::byte> read_whole_file(const std::string& path, std::size_t most = std::size_t{4} << 30);

}  // namespace dullcast::base
