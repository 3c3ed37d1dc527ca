#include "engine/sweep/parts_folder.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include "engine/base/file_error.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/storage/sweep_part_file.hpp"

namespace dullcast::sweep {
namespace {

namespace fs = std::filesystem;

constexpr const char* lock_name = "lock";

std::vector<std::byte> bytes_of(const std::string& text) {
  const auto* first = reinterpret_cast<const std::byte*>(text.data());
  return {first, first + text.size()};
}

void make_folder(const std::string& path) {
  std::error_code failure;
  fs::create_directories(path, failure);
  if (failure)
    throw base::FileError(path, "cannot make this folder for the sweep's parts: " + failure.message());
}

/// Throws when a file that is there cannot be opened: not allowed, or this process has too many open.
void refuse_unopenable(const std::string& path) {
  const int descriptor = ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK);
  const int reason = errno;
  if (descriptor < 0)
    throw base::FileError(path, "cannot open this part: " + std::generic_category().message(reason));
  ::close(descriptor);
}

/// Whether an open file is still the one of that name.
bool still_named(int descriptor, const std::string& name) {
  struct stat open {};
  struct stat named {};
  return ::fstat(descriptor, &open) == 0 && ::stat(name.c_str(), &named) == 0 &&
         open.st_ino == named.st_ino && open.st_dev == named.st_dev;
}

/// What keeps a part from being that of a chunk; empty when nothing does.
std::string what_is_wrong(const storage::SweepPart& part, long chunk, const ExpectedParts& expected) {
  const long size = expected.cases_per_chunk;
  if (part.fingerprint != expected.fingerprint) return "belongs to another sweep";
  if (part.first_case != chunk * size + 1 ||
      part.values.rows() != std::min(size, expected.cases - chunk * size))
    return "holds other runs than those of its name";
  const bool courses_fit =
      std::all_of(part.histories.begin(), part.histories.end(), [&](const storage::ThinHistory& history) {
        return history.values.rows() == expected.history_rows &&
               history.values.cols() == expected.history_columns;
      });
  if (part.values.cols() != expected.columns || !courses_fit)
    return "holds other columns than this sweep has";
  return "";
}

}  // namespace

bool PartsFolder::begun() const {
  return fs::exists(began_path());
}

void PartsFolder::begin(const SweepManifest& manifest) const {
  make_folder(path_);
  base::write_whole_file(began_path(), bytes_of(manifest_text(manifest)));
}

SweepManifest PartsFolder::manifest() const {
  const std::string file = began_path();
  const std::vector<std::byte> bytes = base::read_whole_file(file);
  return read_manifest(std::string(reinterpret_cast<const char*>(bytes.data()), bytes.size()), file);
}

std::string PartsFolder::began_path() const {
  return (fs::path(path_) / "began.yaml").string();
}

std::optional<PartsFolder::Identity> PartsFolder::identity_of(const std::string& file) {
  struct stat found {};
  if (::stat(file.c_str(), &found) != 0) return std::nullopt;
  return Identity{found.st_dev, found.st_ino};
}

void PartsFolder::remember() {
  folder_ = identity_of(path_);
  began_ = identity_of(began_path());
  if (!folder_ || !began_) throw base::FileError(path_, "cannot look into this folder of the sweep's parts");
}

bool PartsFolder::still_there() const {
  return folder_ && folder_ == identity_of(path_) && began_ == identity_of(began_path());
}

void PartsFolder::check() const {
  if (still_there()) return;
  throw base::FileError(
      path_,
      "this folder of the sweep's parts was removed, moved or changed while the sweep ran, and "
      "what was done is gone with it; put it back and go on with --resume, or begin anew");
}

std::string PartsFolder::place_for_part(long chunk) const {
  check();
  std::string path = part_path(chunk);
  std::error_code failure;
  fs::create_directory(fs::path(path).parent_path(), failure);
  // Why it failed, if it did, is told by the writing.
  return path;
}

std::string PartsFolder::part_path(long chunk) const {
  // Thousands to a folder, so that no folder grows too long to list.
  char name[64];
  std::snprintf(name, sizeof name, "%06ld/part_%09ld.h5", chunk / 1000, chunk + 1);
  return (fs::path(path_) / name).string();
}

std::string PartsFolder::whole_path() const {
  return (fs::path(path_) / "whole.h5").string();
}

std::vector<long> PartsFolder::missing(const ExpectedParts& expected, std::vector<std::string>& damaged,
                                       const std::function<void(long)>& look) const {
  std::vector<long> chunks, there;
  std::vector<std::string> paths;
  const long size = expected.cases_per_chunk, count = (expected.cases + size - 1) / size;
  for (long k = 0; k < count; ++k) {
    std::string path = part_path(k);
    if (fs::exists(path)) {
      there.push_back(k);
      paths.push_back(std::move(path));
    } else {
      chunks.push_back(k);
    }
  }
  storage::SweepPartSeries parts(paths);
  for (std::size_t i = 0; i < there.size(); ++i) {
    const std::string& path = paths[i];
    if (look) look(there[i]);
    refuse_unopenable(path);
    try {
      const std::string wrong = what_is_wrong(parts.read(i), there[i], expected);
      if (wrong.empty()) continue;
      damaged.push_back(path + ": " + wrong);
    } catch (const base::FileError& error) {
      damaged.emplace_back(error.what());
    }
    std::error_code ignored;
    fs::rename(path, path + ".damaged", ignored);
    chunks.push_back(there[i]);
  }
  std::sort(chunks.begin(), chunks.end());
  return chunks;
}

void PartsFolder::remove() const {
  std::error_code ignored;
  std::vector<fs::path> first;
  for (const fs::directory_entry& entry : fs::directory_iterator(path_, ignored))
    if (entry.path().filename() != lock_name) first.push_back(entry.path());
  for (const fs::path& path : first) fs::remove_all(path, ignored);
  // Each by its name: what another has made in between is not ours to remove.
  fs::remove(fs::path(path_) / lock_name, ignored);
  fs::remove(path_, ignored);
}

FolderLock::FolderLock(const std::string& folder) {
  // A file of its own, for began.yaml is renamed over.
  const std::string name = (fs::path(folder) / lock_name).string();
  int trials = 0;
  do {
    if (descriptor_ >= 0) ::close(descriptor_);
    make_folder(folder);
    descriptor_ = ::open(name.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0666);
    if (descriptor_ < 0 && errno == ENOENT && ++trials < 100) continue;  // removed since it was made
    if (descriptor_ < 0)
      throw base::FileError(folder, "cannot write in this folder: " + std::generic_category().message(errno));
    // Where a file system knows no locks, going on without is the lesser evil.
    if (::flock(descriptor_, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK) {
      ::close(descriptor_);
      throw base::FileError(folder, "another dullcast is working on this sweep");
    }
    // Who held it may have finished in between and removed it: a lock on a file without a name keeps nobody
    // out.
  } while (!still_named(descriptor_, name));
}

FolderLock::~FolderLock() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

}  // namespace dullcast::sweep
