#include "engine/storage/stored_file.hpp"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <optional>
#include <system_error>

#include "engine/base/child_process.hpp"
#include "engine/base/display.hpp"
#include "engine/base/file_error.hpp"
#include "engine/base/machine_fault.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/storage/checksum.hpp"
#include "engine/storage/hdf5_use.hpp"
#include "engine/storage/hdf5_walk.hpp"

namespace dullcast::storage {
namespace {

/// HDF5 files begin with these eight bytes (HDF5 file format specification, "Superblock").
constexpr std::array<unsigned char, 8> hdf5_signature = {0x89, 'H', 'D', 'F', '\r', '\n', 0x1a, '\n'};

/// Values of one run or sweep in memory, whatever the file says.
constexpr std::size_t most_value_bytes = std::size_t{4} << 30;

/// Closes itself.
struct Descriptor {
  int number;
  explicit Descriptor(int opened) : number(opened) {}
  ~Descriptor() {
    if (number >= 0) ::close(number);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
};

/// An ordinary file open for reading.
class OpenFile {
 public:
  OpenFile(const std::string& path, const StoredFileKind& kind)
      // Without O_NONBLOCK a pipe without a writer would be waited for.
      : path_(path), file_(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK)) {
    if (file_.number < 0) fail("cannot open this file");
    struct stat there {};
    if (::fstat(file_.number, &there) != 0) fail("cannot read this file");
    if (S_ISDIR(there.st_mode))
      throw base::FileError(path, "this is a folder, not a " + std::string(kind.noun));
    if (!S_ISREG(there.st_mode)) throw base::FileError(path, "this is not an ordinary file");
    if (there.st_size == 0) throw base::FileError(path, "this file is empty");
    size_ = static_cast<std::size_t>(there.st_size);
    if (size_ > kind.most_bytes) {
      throw base::FileError(path, "this file has " + std::to_string(size_ >> 30) + " GiB, more than a " +
                                      kind.noun + " that this program reads (" +
                                      std::to_string(kind.most_bytes >> 30) + " GiB)");
    }
  }
  std::size_t size() const { return size_; }
  /// How many there were of `count` bytes from `offset`.
  std::size_t read(std::size_t offset, void* bytes, std::size_t count) const {
    auto* to = static_cast<std::byte*>(bytes);
    std::size_t done = 0;
    while (done < count) {
      const ssize_t got = ::pread(file_.number, to + done, count - done, static_cast<off_t>(offset + done));
      if (got < 0 && errno == EINTR) continue;
      if (got < 0) fail("cannot read this file");
      if (got == 0) break;
      done += static_cast<std::size_t>(got);
    }
    return done;
  }

 private:
  [[noreturn]] void fail(const std::string& what) const {
    throw base::FileError(path_, what + ": " + std::generic_category().message(errno));
  }

  const std::string& path_;
  Descriptor file_;
  std::size_t size_ = 0;
};

bool begins_as_hdf5(const OpenFile& file) {
  std::array<unsigned char, hdf5_signature.size()> found{};
  const std::size_t got = file.read(0, found.data(), found.size());
  return std::equal(found.begin(), found.begin() + static_cast<long>(got), hdf5_signature.begin());
}

/// A slow machine takes some hundredths of a second for a long run's file of ten megabytes.
base::ChildLimits limits_for(std::size_t file_size) {
  const double megabytes = static_cast<double>(file_size) / 1048576.0;
  base::ChildLimits limits;
  limits.processor_time += megabytes / 4.0;
  limits.time += megabytes;
  return limits;
}

/// What `read` gives, called once more where somebody killed its child: that is no word about the file.
template <class Read>
StoredGroup again_if_killed(const Read& read) {
  try {
    return read();
  } catch (const base::ChildLost& lost) {
    if (lost.end() != base::ChildEnd::killed) throw;
  }
  return read();
}

base::FileError damaged(const std::string& path, const StoredFileKind& kind, const std::string& why) {
  return base::FileError(path,
                         "this " + std::string(kind.noun) + " is damaged: " + why + "; " + kind.way_out);
}

/// The size of a file that HDF5 may see. Throws FileError where its first or last bytes are wrong, or its
/// bytes do not agree with its checksum.
std::size_t size_of_sound(const std::string& path, const StoredFileKind& kind, Seal seal) {
  const OpenFile file(path, kind);
  if (!begins_as_hdf5(file))
    throw base::FileError(path, "this is not a " + std::string(kind.file_type) + ": it is not an HDF5 file");
  const Checksum checksum = verify_checksum(file.size(), [&](std::size_t at, void* bytes, std::size_t count) {
    return file.read(at, bytes, count);
  });
  if (checksum == Checksum::broken)
    throw damaged(path, kind, "its bytes do not agree with the checksum at its end");
  if (checksum == Checksum::none && seal == Seal::required) {
    throw base::FileError(path, "this HDF5 file has no checksum at its end: it is cut short (" +
                                    std::string(kind.way_out) +
                                    "), or another program wrote it (if it is to be trusted, dullcast seal "
                                    "looks through it and writes a copy with a checksum)");
  }
  return file.size();
}

/// What the child sends of a file of so many bytes, where there are so many bytes of memory. Throws Refused,
/// BeyondMemory and ChildLost.
StoredGroup received(base::ChildProcess& child, std::size_t file_size, double memory) {
  // What is made of the values holds them once or twice more. Past that the system would end whoever it
  // pleases.
  constexpr double copies = 3.0;
  const std::size_t most =
      std::max(file_size, std::min(most_value_bytes / tree_stream::most_from_a_byte, file_size) *
                              tree_stream::most_from_a_byte);
  // Names and shapes beside the values.
  return tree_stream::receive([&](void* bytes, std::size_t count) { child.read(bytes, count); },
                              most + (std::size_t{16} << 20), memory / copies);
}

}  // namespace

StoredGroup read_stored_file(const std::string& path, const StoredFileKind& kind, Seal seal,
                             const std::function<bool(const std::string& path)>& wanted) {
  const std::size_t file_size = size_of_sound(path, kind, seal);
  const double memory = base::memory_to_be_had();
  const auto read = [&] {
    // No other thread is inside HDF5 when the child takes over what this process has of it.
    std::optional<Hdf5Use> use(std::in_place);
    base::ChildProcess child(
        [&](const base::ChildProcess::Send& send) {
          tree_stream::Sender sender(send);
          send_hdf5_file(path, file_size, wanted, sender);
        },
        limits_for(file_size));
    use.reset();
    return received(child, file_size, memory);
  };
  try {
    return again_if_killed(read);
  } catch (const tree_stream::Refused& refused) {
    throw damaged(path, kind, base::plain(refused.what()));
  } catch (const tree_stream::BeyondMemory&) {
    throw base::FileError(
        path, "its values take more than the " + base::show_bytes(memory) +
                  " of memory that there are; xarray, Octave or h5dump read single columns of it");
  } catch (const base::ChildLost& lost) {
    if (lost.end() == base::ChildEnd::killed)
      throw base::FileError(path, "what reads it was killed, twice: is this machine short of memory?");
    throw damaged(
        path, kind,
        lost.end() == base::ChildEnd::too_long ? "reading it takes far too long" : "HDF5 broke over it");
  } catch (const std::bad_alloc&) {
    throw base::FileError(path, "this " + std::string(kind.noun) + " is larger than this machine's memory");
  }
}

StoredFileSeries::StoredFileSeries(std::vector<std::string> paths, const StoredFileKind& kind,
                                   std::function<bool(const std::string& path)> wanted)
    : paths_(std::move(paths)), kind_(kind), wanted_(std::move(wanted)) {}

/// Starts a child over file k and those after it, as long as they are sound; none for one alone.
void StoredFileSeries::begin(std::size_t k) {
  constexpr std::size_t most_files = 64, most_bytes = std::size_t{32} << 20;
  child_.reset();
  sizes_.clear();
  first_ = next_ = k;
  std::size_t bytes = 0;
  try {
    for (; k < paths_.size() && sizes_.size() < most_files && bytes < most_bytes; ++k) {
      sizes_.push_back(size_of_sound(paths_[k], kind_, Seal::required));
      bytes += sizes_.back();
    }
  } catch (const base::FileError&) {
    // told when its turn comes
  }
  if (sizes_.size() < 2) return;
  memory_ = base::memory_to_be_had();
  const Hdf5Use use;
  child_ = std::make_unique<base::ChildProcess>(
      [&](const base::ChildProcess::Send& send) {
        for (std::size_t i = 0; i < sizes_.size(); ++i) {
          tree_stream::Sender sender(send);
          send_hdf5_file(paths_[first_ + i], sizes_[i], wanted_, sender);
        }
      },
      limits_for(bytes));
}

StoredGroup StoredFileSeries::read(std::size_t k) {
  if (!child_ || k != next_) begin(k);
  if (child_) {
    try {
      StoredGroup file = received(*child_, sizes_[k - first_], memory_);
      if (++next_ == first_ + sizes_.size()) child_.reset();
      return file;
    } catch (const std::exception&) {
      child_.reset();  // whatever it was, the file is asked by itself
    }
  }
  return read_stored_file(paths_[k], kind_, Seal::required, wanted_);
}

}  // namespace dullcast::storage
