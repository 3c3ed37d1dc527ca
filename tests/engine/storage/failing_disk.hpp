#pragma once

/// A disk that fails on command, for this whole test program: its own pwrite, pread, fsync and close stand
/// before those of the system, for HDF5 too.
namespace dullcast::storage {

struct DiskCalls {
  long writes = 0, reads = 0;
};

/// While one lives: write number `first_write` (from 1) and those after it fail with `error`; so does the
/// system's answer to fsync or close, where asked. Counts the calls.
class FailingDisk {
 public:
  enum class At { nowhere, writes, one_write, sync, close };
  explicit FailingDisk(At at, int error = 0, long first_write = 1);
  ~FailingDisk();
  FailingDisk(const FailingDisk&) = delete;
  FailingDisk& operator=(const FailingDisk&) = delete;
  DiskCalls calls() const;
};

}  // namespace dullcast::storage
