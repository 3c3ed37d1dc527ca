#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "engine/base/child_process.hpp"
#include "engine/base/file_error.hpp"
#include "engine/storage/stored_tree.hpp"

namespace dullcast::storage {

/// What is read, in the words of messages.
struct StoredFileKind {
  const char* noun;        // "result"
  const char* file_type;   // the word that such a file carries
  const char* way_out;     // what to do about a damaged one
  std::size_t most_bytes;  // larger files are refused
};

inline constexpr StoredFileKind run_file{"result", "dullcast run", "copy it anew, or run its scenario again",
                                         std::size_t{4} << 30};
inline constexpr StoredFileKind sweep_file{"sweep", "dullcast sweep", "copy it anew, or run its plan again",
                                           std::size_t{64} << 30};
inline constexpr StoredFileKind part_file{"part of a sweep", "dullcast sweep part",
                                          "dullcast sweep --resume runs its cases again",
                                          std::size_t{4} << 30};

/// A file that is whole, of a kind that this program knows or may know, but not of the one asked for.
class OtherKindOfFile : public base::FileError {
 public:
  OtherKindOfFile(const std::string& path, const std::string& found, const StoredFileKind& wanted)
      : FileError(path, "this file is a '" + found + "', not a '" + wanted.file_type + "'"), found_(found) {}
  bool is(const StoredFileKind& kind) const { return found_ == kind.file_type; }

 private:
  std::string found_;
};

/// Whether a file without a checksum at its end is read.
enum class Seal { required, may_be_missing };

/// Everything in the HDF5 file at `path`, or of datasets only what `wanted` (of its path, "/runs/footage")
/// says.
///
/// The file may come from anywhere. Its size and its first and last bytes are looked at, then its bytes
/// against the checksum, before HDF5 sees it; and since anyone can write a checksum and HDF5 1.10 crashes and
/// hangs on wrong bytes, HDF5 reads it in a child process of bounded time and memory, which sends plain
/// values; one that somebody else kills is tried once more. Links that are not plain ones, values kept
/// outside of the file, filters that this program does not write, and more values than the file's bytes can
/// hold are refused before anything is read of them.
///
/// Throws FileError, one sentence that says what it is and what to do: no such file, no ordinary file, empty,
/// not HDF5, not of this kind, without a checksum, damaged; std::system_error when no process can be had.
StoredGroup read_stored_file(const std::string& path, const StoredFileKind& kind, Seal seal = Seal::required,
                             const std::function<bool(const std::string& path)>& wanted = {});

/// Sealed files of one kind, read in order. One child process reads many of them, for starting and ending a
/// process takes several times as long as reading a small file.
class StoredFileSeries {
 public:
  /// `kind` and `wanted` are those of read_stored_file.
  StoredFileSeries(std::vector<std::string> paths, const StoredFileKind& kind,
                   std::function<bool(const std::string& path)> wanted = {});

  /// What file k holds, as read_stored_file reads it: where anything is wrong with it or with the child, the
  /// file is read once more in a child of its own, whose word counts. Any order, but quick only in theirs.
  /// Throws as read_stored_file does.
  StoredGroup read(std::size_t k);
  const std::string& path(std::size_t k) const { return paths_[k]; }

 private:
  void begin(std::size_t k);

  std::vector<std::string> paths_;
  const StoredFileKind& kind_;
  std::function<bool(const std::string& path)> wanted_;
  std::unique_ptr<base::ChildProcess> child_;  // while it has files to send
  std::vector<std::size_t> sizes_;             // of the files that it was given, from first_ on
  std::size_t first_ = 0, next_ = 0;           // its first file, and the one that it sends next
  double memory_ = 0.0;                        // bytes that there were when it began
};

}  // namespace dullcast::storage
