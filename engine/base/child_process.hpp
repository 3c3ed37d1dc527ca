#pragma once

#include <sys/types.h>

#include <chrono>
#include <cstddef>
#include <functional>
#include <stdexcept>
#include <vector>

namespace dullcast::base {

/// What a child process may take.
struct ChildLimits {
  double processor_time = 4.0;                  // s of the processor, rounded up to whole seconds
  double time = 60.0;                           // s by the clock: for a child that waits or is kept waiting
  std::size_t memory = std::size_t{512} << 20;  // bytes beside what this process has already
};

/// Why a child ended before it gave what was asked of it.
enum class ChildEnd {
  crashed,   // it crashed, or took too much memory
  too_long,  // it took too long
  killed,    // somebody else ended it (SIGKILL), as the system does when memory runs out
};

/// The child ended before it gave what was asked of it.
class ChildLost : public std::runtime_error {
 public:
  explicit ChildLost(ChildEnd end) : std::runtime_error("a child process was lost"), end_(end) {}
  ChildEnd end() const { return end_; }

 private:
  ChildEnd end_;
};

/// Work that may crash, hang or ask for any amount of memory, done in a child process (fork) that sends back
/// bytes. What happens to the child does not touch this process; it leaves no core file, prints nothing, is
/// not reached by the keys that stop a program, and ends with this process. Under the address sanitizer,
/// which needs terabytes of addresses, memory is not bounded and what the child prints is shown.
class ChildProcess {
 public:
  /// Gives bytes to the parent; for the child to call.
  using Send = std::function<void(const void* bytes, std::size_t count)>;

  /// Starts `work` in the child. It must not throw, must not use threads, and ends with its process: no
  /// destructor of this process's objects runs there. Throws std::system_error when no process can be had.
  ChildProcess(const std::function<void(const Send& send)>& work, const ChildLimits& limits);
  /// Ends the child if it still runs.
  ~ChildProcess();
  ChildProcess(const ChildProcess&) = delete;
  ChildProcess& operator=(const ChildProcess&) = delete;

  /// The next `count` bytes that the child sent. Throws ChildLost.
  void read(void* bytes, std::size_t count);

 private:
  void end();
  std::size_t receive(void* bytes, std::size_t most);

  std::vector<std::byte> ahead_;  // received and not asked for yet, from `taken_` on
  std::size_t taken_ = 0;
  pid_t child_ = -1;
  int from_child_ = -1;
  std::chrono::steady_clock::time_point until_;
};

}  // namespace dullcast::base
