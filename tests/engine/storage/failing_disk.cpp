#include "engine/storage/failing_disk.hpp"

#include <sys/syscall.h>
#include <unistd.h>

#include <cerrno>

namespace dullcast::storage {
namespace {

struct Disk {
  bool watched = false;
  FailingDisk::At at = FailingDisk::At::nowhere;
  int error = 0;
  long first_write = 1;
  DiskCalls calls;
};

/// The system's calls have no other way to learn of it.
Disk& disk() {
  static Disk the_disk;
  return the_disk;
}

bool fails(FailingDisk::At at) {
  if (!disk().watched || disk().at != at) return false;
  errno = disk().error;
  return true;
}

ssize_t write_to(int descriptor, const void* bytes, std::size_t count, off_t offset) {
  const long number = disk().watched ? ++disk().calls.writes : 0;
  if (number >= disk().first_write && fails(FailingDisk::At::writes)) return -1;
  if (number == disk().first_write && fails(FailingDisk::At::one_write)) return -1;
  return ::syscall(SYS_pwrite64, descriptor, bytes, count, offset);
}

ssize_t read_from(int descriptor, void* bytes, std::size_t count, off_t offset) {
  if (disk().watched) ++disk().calls.reads;
  return ::syscall(SYS_pread64, descriptor, bytes, count, offset);
}

}  // namespace

FailingDisk::FailingDisk(At at, int error, long first_write) {
  disk() = {true, at, error, first_write, {}};
}

FailingDisk::~FailingDisk() {
  disk() = {};
}

DiskCalls FailingDisk::calls() const {
  return disk().calls;
}

}  // namespace dullcast::storage

using dullcast::storage::FailingDisk;

extern "C" {

ssize_t pwrite(int descriptor, const void* bytes, std::size_t count, off_t offset) {
  return dullcast::storage::write_to(descriptor, bytes, count, offset);
}
ssize_t pwrite64(int descriptor, const void* bytes, std::size_t count, off64_t offset) {
  return dullcast::storage::write_to(descriptor, bytes, count, offset);
}
ssize_t pread(int descriptor, void* bytes, std::size_t count, off_t offset) {
  return dullcast::storage::read_from(descriptor, bytes, count, offset);
}
ssize_t pread64(int descriptor, void* bytes, std::size_t count, off64_t offset) {
  return dullcast::storage::read_from(descriptor, bytes, count, offset);
}
int fsync(int descriptor) {
  if (dullcast::storage::fails(FailingDisk::At::sync)) return -1;
  return static_cast<int>(::syscall(SYS_fsync, descriptor));
}
int close(int descriptor) {
  const int closed = static_cast<int>(::syscall(SYS_close, descriptor));
  return dullcast::storage::fails(FailingDisk::At::close) ? -1 : closed;
}
}
