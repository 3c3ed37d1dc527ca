#include "engine/results/whole_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>
#include <utility>

#include "engine/results/result_error.hpp"

namespace dullcast {
namespace {

std::string reason_of(int error) {
  if (error == ENOSPC || error == EDQUOT) return "the disk is full";
  if (error == EFBIG) return "the file would be larger than this system allows";
  return std::generic_category().message(error);
}

/// An open file that closes itself.
class OpenFile {
 public:
  explicit OpenFile(int descriptor) : descriptor_(descriptor) {}
  OpenFile(const OpenFile&) = delete;
  OpenFile& operator=(const OpenFile&) = delete;
  OpenFile(OpenFile&& other) noexcept : descriptor_(std::exchange(other.descriptor_, -1)) {}
  OpenFile& operator=(OpenFile&&) = delete;
  ~OpenFile() {
    if (descriptor_ >= 0) ::close(descriptor_);
  }
  int get() const { return descriptor_; }
  /// Closes now and says how it went: a network disk may report a failed write only here.
  int close() { return ::close(std::exchange(descriptor_, -1)); }

 private:
  int descriptor_;
};

/// A file name that is removed again unless keep() is called.
class Unfinished {
 public:
  explicit Unfinished(std::string name) : name_(std::move(name)) {}
  Unfinished(const Unfinished&) = delete;
  Unfinished& operator=(const Unfinished&) = delete;
  ~Unfinished() {
    if (!name_.empty()) ::unlink(name_.c_str());
  }
  void keep() { name_.clear(); }

 private:
  std::string name_;
};

/// The file that `path` stands for: the target of a symbolic link, so that the link itself is not replaced.
/// The target need not exist yet.
std::filesystem::path link_target(const std::string& path) {
  std::filesystem::path target = path;
  std::error_code failed;
  for (int links = 0; links < 40; ++links) {
    const std::filesystem::path next = std::filesystem::read_symlink(target, failed);
    if (failed) return target;  // not a link
    target = target.parent_path() / next;
  }
  throw ResultError(path, "this link leads round in a circle");
}

/// Opens a new file with an unused name in `folder`; an earlier killed run may have left its own behind.
std::pair<OpenFile, std::string> open_unfinished(const std::filesystem::path& folder,
                                                 const std::string& path) {
  for (int attempt = 0; attempt < 1000; ++attempt) {
    const std::string name = folder / (".dullcast-unfinished-" + std::to_string(::getpid()) + "-" +
                                       std::to_string(attempt) + ".tmp");
    const int descriptor = ::open(name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (descriptor >= 0) return {OpenFile(descriptor), name};
    if (errno != EEXIST) throw ResultError(path, "cannot write in this folder: " + reason_of(errno));
  }
  throw ResultError(path,
                    "the folder is full of unfinished results (.dullcast-unfinished-*.tmp): remove them");
}

void write_all(int descriptor, const std::vector<std::byte>& bytes, const std::string& path) {
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t wrote = ::write(descriptor, bytes.data() + done, bytes.size() - done);
    if (wrote < 0) {
      if (errno == EINTR) continue;
      throw ResultError(path, "cannot write the result: " + reason_of(errno));
    }
    done += static_cast<std::size_t>(wrote);
  }
}

}  // namespace

void write_whole_file(const std::string& path, const std::vector<std::byte>& bytes) {
  if (path.empty()) throw ResultError("(no name)", "a result needs a file name");
  const std::filesystem::path target = link_target(path);
  struct stat there {};
  if (::stat(target.c_str(), &there) == 0) {
    if (S_ISDIR(there.st_mode)) throw ResultError(path, "this is a folder; give a file name");
    if (!S_ISREG(there.st_mode)) throw ResultError(path, "this is not an ordinary file");
  }
  if (!target.has_filename()) throw ResultError(path, "this names a folder; give a file name");
  const std::filesystem::path folder = target.has_parent_path() ? target.parent_path() : ".";
  struct stat above {};
  if (::stat(folder.c_str(), &above) != 0) {
    throw ResultError(path, "cannot reach the folder " + folder.string() + ": " + reason_of(errno));
  }
  auto [file, name] = open_unfinished(folder, path);
  Unfinished unfinished(name);
  write_all(file.get(), bytes, path);
  if (::fsync(file.get()) != 0) throw ResultError(path, "cannot write the result: " + reason_of(errno));
  if (file.close() != 0) throw ResultError(path, "cannot write the result: " + reason_of(errno));
  if (::rename(name.c_str(), target.c_str()) != 0) {
    throw ResultError(path, "cannot give the finished result its name: " + reason_of(errno));
  }
  unfinished.keep();
  // The new name itself must reach the disk too. Some file systems cannot sync a folder; the file is whole
  // anyway.
  const OpenFile directory(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (directory.get() >= 0) ::fsync(directory.get());
}

std::vector<std::byte> read_whole_file(const std::string& path) {
  const OpenFile file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.get() < 0) throw ResultError(path, "cannot open this file: " + reason_of(errno));
  struct stat there {};
  if (::fstat(file.get(), &there) != 0) throw ResultError(path, "cannot read this file: " + reason_of(errno));
  if (S_ISDIR(there.st_mode)) throw ResultError(path, "this is a folder, not a result");
  if (!S_ISREG(there.st_mode)) throw ResultError(path, "this is not an ordinary file");
  std::vector<std::byte> bytes(static_cast<std::size_t>(there.st_size));
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t got = ::read(file.get(), bytes.data() + done, bytes.size() - done);
    if (got < 0) {
      if (errno == EINTR) continue;
      throw ResultError(path, "cannot read this file: " + reason_of(errno));
    }
    if (got == 0) break;
    done += static_cast<std::size_t>(got);
  }
  bytes.resize(done);
  return bytes;
}

}  // namespace dullcast
