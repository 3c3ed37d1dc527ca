#include "engine/base/whole_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <filesystem>
#include <system_error>
#include <utility>

#include "engine/base/file_error.hpp"

namespace dullcast::base {
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
  throw FileError(path, "this link leads round in a circle");
}

std::filesystem::path folder_of(const std::filesystem::path& target) {
  return target.has_parent_path() ? target.parent_path() : ".";
}

/// Opens a new file with an unused name in `folder`; an earlier killed run may have left its own behind.
std::pair<OpenFile, std::string> open_unfinished(const std::filesystem::path& folder,
                                                 const std::string& path) {
  for (int attempt = 0; attempt < 1000; ++attempt) {
    const std::string name = folder / (".dullcast-unfinished-" + std::to_string(::getpid()) + "-" +
                                       std::to_string(attempt) + ".tmp");
    const int descriptor = ::open(name.c_str(), O_RDWR | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (descriptor >= 0) return {OpenFile(descriptor), name};
    if (errno != EEXIST) throw FileError(path, "cannot write in this folder: " + reason_of(errno));
  }
  throw FileError(path, "the folder is full of unfinished results (.dullcast-unfinished-*.tmp): remove them");
}

/// Where `path` is to stand, once it is known that a file can.
std::filesystem::path place_for(const std::string& path) {
  if (path.empty()) throw FileError("(no name)", "a result needs a file name");
  std::filesystem::path target = link_target(path);
  struct stat there {};
  if (::stat(target.c_str(), &there) == 0) {
    if (S_ISDIR(there.st_mode)) throw FileError(path, "this is a folder; give a file name");
    if (!S_ISREG(there.st_mode)) throw FileError(path, "this is not an ordinary file");
  }
  if (!target.has_filename()) throw FileError(path, "this names a folder; give a file name");
  const std::filesystem::path folder = folder_of(target);
  struct stat above {};
  if (::stat(folder.c_str(), &above) != 0) {
    throw FileError(path, errno == ENOENT
                              ? "there is no folder " + folder.string()
                              : "cannot reach the folder " + folder.string() + ": " + reason_of(errno));
  }
  return target;
}

}  // namespace

struct FileAside::Parts {
  std::string path;
  std::filesystem::path target;
  std::pair<OpenFile, std::string> open;
  Unfinished unfinished;

  explicit Parts(const std::string& asked)
      : path(asked),
        target(place_for(asked)),
        open(open_unfinished(folder_of(target), asked)),
        unfinished(open.second) {}
  [[noreturn]] void cannot_write() const {
    throw FileError(path, "cannot write the result: " + reason_of(errno));
  }
};

FileAside::FileAside(const std::string& path) : parts_(std::make_unique<Parts>(path)) {}
FileAside::~FileAside() = default;

const std::string& FileAside::name() const {
  return parts_->open.second;
}

void FileAside::write_at(std::size_t offset, const void* bytes, std::size_t count) {
  const auto* from = static_cast<const std::byte*>(bytes);
  std::size_t done = 0;
  while (done < count) {
    const ssize_t wrote =
        ::pwrite(parts_->open.first.get(), from + done, count - done, static_cast<off_t>(offset + done));
    if (wrote < 0) {
      if (errno == EINTR) continue;
      parts_->cannot_write();
    }
    done += static_cast<std::size_t>(wrote);
  }
}

std::size_t FileAside::read_at(std::size_t offset, void* bytes, std::size_t count) const {
  auto* to = static_cast<std::byte*>(bytes);
  std::size_t done = 0;
  while (done < count) {
    const ssize_t got =
        ::pread(parts_->open.first.get(), to + done, count - done, static_cast<off_t>(offset + done));
    if (got < 0) {
      if (errno == EINTR) continue;
      throw FileError(parts_->path, "cannot read back what was written: " + reason_of(errno));
    }
    if (got == 0) break;
    done += static_cast<std::size_t>(got);
  }
  return done;
}

std::size_t FileAside::size() const {
  struct stat there {};
  if (::fstat(parts_->open.first.get(), &there) != 0) parts_->cannot_write();
  return static_cast<std::size_t>(there.st_size);
}

void FileAside::keep() {
  if (::fsync(parts_->open.first.get()) != 0 || parts_->open.first.close() != 0) parts_->cannot_write();
  rename_synced(name(), parts_->target.string());
  parts_->unfinished.keep();
}

void rename_synced(const std::string& from, const std::string& to) {
  if (::rename(from.c_str(), to.c_str()) != 0)
    throw FileError(to, "cannot give the finished result its name: " + reason_of(errno));
  // The new name itself must reach the disk too. Some file systems cannot sync a folder; the file is whole
  // anyway.
  const OpenFile directory(::open(folder_of(to).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (directory.get() >= 0) ::fsync(directory.get());
}

void write_whole_file(const std::string& path, const std::vector<std::byte>& bytes) {
  FileAside file(path);
  file.write_at(0, bytes.data(), bytes.size());
  file.keep();
}

std::vector<std::byte> read_whole_file(const std::string& path, std::size_t most) {
  const OpenFile file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK));
  if (file.get() < 0) throw FileError(path, "cannot open this file: " + reason_of(errno));
  struct stat there {};
  if (::fstat(file.get(), &there) != 0) throw FileError(path, "cannot read this file: " + reason_of(errno));
  if (S_ISDIR(there.st_mode)) throw FileError(path, "this is a folder, not a result");
  if (!S_ISREG(there.st_mode)) throw FileError(path, "this is not an ordinary file");
  if (static_cast<std::size_t>(there.st_size) > most)
    throw FileError(
        path, "this file has more than the " + std::to_string(most) + " bytes that are read of such a file");
  std::vector<std::byte> bytes(static_cast<std::size_t>(there.st_size));
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t got = ::read(file.get(), bytes.data() + done, bytes.size() - done);
    if (got < 0) {
      if (errno == EINTR) continue;
      throw FileError(path, "cannot read this file: " + reason_of(errno));
    }
    if (got == 0) break;
    done += static_cast<std::size_t>(got);
  }
  bytes.resize(done);
  return bytes;
}

}  // namespace dullcast::base
