#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "engine/storage/sweep_part.hpp"
#include "engine/sweep/manifest.hpp"

namespace dullcast::sweep {

/// What the parts of a sweep hold when they are its own.
struct ExpectedParts {
  long cases = 0, cases_per_chunk = 1;  // of the whole sweep; a chunk's, but for the last
  std::string fingerprint;
  long columns = 0;                            // values of a case
  long history_rows = 0, history_columns = 0;  // of a course, where one is kept
};

/// The folder in which a sweep's parts gather until all are there: began.yaml (what it began with) and one
/// file a chunk. Everything in it is written whole or not at all, so that it can be gone on with after any
/// end.
class PartsFolder {
 public:
  explicit PartsFolder(std::string path) : path_(std::move(path)) {}
  const std::string& path() const { return path_; }

  /// Whether a sweep has begun here.
  bool begun() const;
  /// Makes the folder and writes what the sweep began with. Throws base::FileError.
  void begin(const SweepManifest& manifest) const;
  /// What it began with. Throws base::FileError or ScenarioErrors when that cannot be read.
  SweepManifest manifest() const;

  /// Remembers the folder as it is now, for still_there() and check(). Throws base::FileError.
  void remember();
  /// Whether the folder remembered is still the one of that name, with what it began with in it.
  bool still_there() const;
  /// Throws base::FileError when it is not.
  void check() const;

  std::string part_path(long chunk) const;  // counted from 0
  /// The same for writing a part: the folder must be the one remembered, and is never made anew, so that no
  /// part lands where nothing can be gone on with. Throws base::FileError.
  std::string place_for_part(long chunk) const;
  /// The chunks whose parts are missing. A part that is damaged, of another sweep, of another chunk or
  /// another shape, is named in `damaged`, set aside under another name and counted as missing. One that this
  /// process may not open is no damage: then it throws base::FileError. `look(k)` is called before a part is
  /// read, and may throw to end it.
  std::vector<long> missing(const ExpectedParts& expected, std::vector<std::string>& damaged,
                            const std::function<void(long)>& look = {}) const;
  /// Where the sweep's file is put together before it gets its name: what a kill leaves of it here goes with
  /// the folder.
  std::string whole_path() const;
  /// Removes the parts and the folder, the lock's file last: whoever finds none takes the folder for one that
  /// nobody works in.
  void remove() const;

 private:
  /// What tells one file from all others.
  struct Identity {
    unsigned long device = 0, number = 0;
    bool operator==(const Identity&) const = default;
  };
  static std::optional<Identity> identity_of(const std::string& file);
  std::string began_path() const;

  std::string path_;
  std::optional<Identity> folder_, began_;  // as remembered
};

/// Keeps others from working on the same parts. Released at the end of its life, or of the process. Taken
/// before anything in the folder is looked at, or two that begin at the same time both find nothing begun.
class FolderLock {
 public:
  /// Makes the folder if need be. Throws base::FileError when that fails or another process holds the folder.
  explicit FolderLock(const std::string& folder);
  ~FolderLock();
  FolderLock(const FolderLock&) = delete;
  FolderLock& operator=(const FolderLock&) = delete;

 private:
  int descriptor_ = -1;
};

}  // namespace dullcast::sweep
