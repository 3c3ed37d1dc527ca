#include "engine/sweep/parts_folder.hpp"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <filesystem>
#include <system_error>

#include "engine/results/result_error.hpp"
#include "engine/results/sweep_part_file.hpp"
#include "engine/results/whole_file.hpp"

namespace dullcast {
namespace {

namespace fs = std::filesystem;

std::vector<std::byte> bytes_of(const std::string& text) {
  const auto* first = reinterpret_cast<const std::byte*>(text.data());
  return {first, first + text.size()};
}

}  // namespace

bool PartsFolder::begun() const {
  return fs::exists(fs::path(path_) / "began.yaml");
}

void PartsFolder::begin(const Beginning& beginning) const {
  std::error_code failure;
  fs::create_directories(path_, failure);
  if (failure)
    throw ResultError(path_, "cannot make this folder for the sweep's parts: " + failure.message());
  write_whole_file((fs::path(path_) / "began.yaml").string(), bytes_of(beginning_text(beginning)));
}

Beginning PartsFolder::beginning() const {
  const std::string file = (fs::path(path_) / "began.yaml").string();
  const std::vector<std::byte> bytes = read_whole_file(file);
  return read_beginning(std::string(reinterpret_cast<const char*>(bytes.data()), bytes.size()), file);
}

std::string PartsFolder::part_path(long chunk) const {
  // Thousands to a folder, so that no folder grows too long to list.
  char name[64];
  std::snprintf(name, sizeof name, "%06ld/part_%09ld.h5", chunk / 1000, chunk + 1);
  return (fs::path(path_) / name).string();
}

std::vector<long> PartsFolder::missing(long count, const std::string& fingerprint,
                                       std::vector<std::string>& damaged) const {
  std::vector<long> chunks;
  for (long k = 0; k < count; ++k) {
    const std::string path = part_path(k);
    if (!fs::exists(path)) {
      chunks.push_back(k);
      continue;
    }
    try {
      const SweepPart part = read_sweep_part(path);
      if (part.fingerprint == fingerprint) continue;
      damaged.push_back(path + ": belongs to another sweep");
    } catch (const ResultError& error) {
      damaged.emplace_back(error.what());
    }
    std::error_code ignored;
    fs::rename(path, path + ".damaged", ignored);
    chunks.push_back(k);
  }
  return chunks;
}

void PartsFolder::remove() const {
  std::error_code ignored;
  fs::remove_all(path_, ignored);
}

FolderLock::FolderLock(const std::string& folder) {
  descriptor_ = ::open((fs::path(folder) / "began.yaml").c_str(), O_RDONLY | O_CLOEXEC);
  if (descriptor_ < 0) throw ResultError(folder, "cannot open its began.yaml");
  // Where a file system knows no locks, going on without is the lesser evil.
  if (::flock(descriptor_, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK) {
    ::close(descriptor_);
    throw ResultError(folder, "another dullcast is working on this sweep");
  }
}

FolderLock::~FolderLock() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

}  // namespace dullcast
