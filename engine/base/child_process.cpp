#include "engine/base/child_process.hpp"

#include <fcntl.h>
#include <poll.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cmath>
#include <csignal>
#include <cstdio>
#include <system_error>
#include <utility>
#ifdef DULLCAST_COUNTS_LINES
extern "C" {  // it does not say so itself
#include <gcov.h>
}
#endif

namespace dullcast::base {
namespace {

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
constexpr bool sanitized = true;
#else
constexpr bool sanitized = false;
#endif

/// Addresses that this process has, in bytes (proc(5), /proc/PID/statm: pages); 0 where that cannot be told.
std::size_t addresses_taken() {
  const int file = ::open("/proc/self/statm", O_RDONLY | O_CLOEXEC);
  if (file < 0) return 0;
  char text[64] = {};
  const ssize_t got = ::read(file, text, sizeof text - 1);
  ::close(file);
  unsigned long pages = 0;
  if (got <= 0 || std::sscanf(text, "%lu", &pages) != 1) return 0;
  return pages * static_cast<std::size_t>(::sysconf(_SC_PAGESIZE));
}

void limit(__rlimit_resource what, rlim_t most) {
  rlimit now{};
  if (::getrlimit(what, &now) != 0) return;
  now.rlim_cur = std::min(most, now.rlim_max);
  now.rlim_max =
      std::min(most + 1, now.rlim_max);  // where both are one, the signal that tells why is not sent
  ::setrlimit(what, &now);
}

/// A child may be ended as soon as its parent has heard enough. Where lines are counted
/// (tests/long/coverage), its counts are kept before it says more.
void keep_counts() {
#ifdef DULLCAST_COUNTS_LINES
  __gcov_dump();
  __gcov_reset();
#endif
}

/// In the child, before its work.
void confine(const ChildLimits& limits, std::size_t taken, pid_t parent) {
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  if (::getppid() != parent) ::_exit(1);  // it went before it could be tied to
  // Whoever stops the program stops this process's parent.
  for (const int signal : {SIGINT, SIGTERM, SIGHUP, SIGQUIT}) ::signal(signal, SIG_IGN);
  for (const int signal : {SIGSEGV, SIGBUS, SIGABRT, SIGFPE, SIGXCPU, SIGPIPE}) ::signal(signal, SIG_DFL);
  limit(RLIMIT_CORE, 0);
  limit(RLIMIT_CPU, static_cast<rlim_t>(std::ceil(limits.processor_time)));
  if (sanitized) return;
  if (taken > 0) limit(RLIMIT_AS, taken + limits.memory);
  const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
  if (nowhere >= 0) {
    ::dup2(nowhere, STDOUT_FILENO);
    ::dup2(nowhere, STDERR_FILENO);
  }
}

}  // namespace

ChildProcess::ChildProcess(const std::function<void(const Send& send)>& work, const ChildLimits& limits)
    : until_(std::chrono::steady_clock::now() +
             std::chrono::milliseconds(static_cast<long>(1e3 * limits.time))) {
  int ends[2];
  if (::pipe2(ends, O_CLOEXEC) != 0)
    throw std::system_error(errno, std::generic_category(), "no pipe to a child process");
  const std::size_t taken = addresses_taken();
  const pid_t parent = ::getpid();
  child_ = ::fork();
  if (child_ < 0) {
    const int why = errno;
    ::close(ends[0]);
    ::close(ends[1]);
    throw std::system_error(why, std::generic_category(), "no child process");
  }
  if (child_ == 0) {
    confine(limits, taken, parent);
    ::close(ends[0]);
    try {
      work([to = ends[1]](const void* bytes, std::size_t count) {
        keep_counts();
        const auto* from = static_cast<const std::byte*>(bytes);
        while (count > 0) {
          const ssize_t wrote = ::write(to, from, count);
          if (wrote < 0 && errno == EINTR) continue;
          if (wrote <= 0) ::_exit(1);  // nobody listens any more
          from += wrote;
          count -= static_cast<std::size_t>(wrote);
        }
      });
    } catch (...) {
      ::_exit(1);
    }
    ::_exit(0);
  }
  ::close(ends[1]);
  from_child_ = ends[0];
}

/// What has come, at least one byte.
std::size_t ChildProcess::receive(void* bytes, std::size_t most) {
  for (;;) {
    const auto left =
        std::chrono::duration_cast<std::chrono::milliseconds>(until_ - std::chrono::steady_clock::now());
    pollfd wait{from_child_, POLLIN, 0};
    const int ready = ::poll(&wait, 1, static_cast<int>(std::max<long>(left.count(), 0)));
    if (ready < 0 && errno == EINTR) continue;
    if (ready == 0) {
      end();
      throw ChildLost(ChildEnd::too_long);
    }
    const ssize_t got = ready < 0 ? -1 : ::read(from_child_, bytes, most);
    if (got < 0 && errno == EINTR) continue;
    if (got > 0) return static_cast<std::size_t>(got);
    const pid_t ended = std::exchange(child_, -1);
    int status = 0;
    while (ended >= 0 && ::waitpid(ended, &status, 0) < 0 && errno == EINTR) {
    }
    const int signal = WIFSIGNALED(status) ? WTERMSIG(status) : 0;
    throw ChildLost(signal == SIGXCPU   ? ChildEnd::too_long
                    : signal == SIGKILL ? ChildEnd::killed
                                        : ChildEnd::crashed);
  }
}

void ChildProcess::read(void* bytes, std::size_t count) {
  constexpr std::size_t few = 65536;
  auto* to = static_cast<std::byte*>(bytes);
  while (count > 0) {
    std::size_t got = std::min(count, ahead_.size() - taken_);
    if (got > 0) {
      std::copy_n(ahead_.begin() + static_cast<std::ptrdiff_t>(taken_), got, to);
      taken_ += got;
    } else if (count >= few) {
      got = receive(to, count);
    } else {
      ahead_.resize(few);
      taken_ = few;  // nothing, should receive throw
      const std::size_t came = receive(ahead_.data(), few);
      ahead_.resize(came);
      taken_ = 0;
    }
    to += got;
    count -= got;
  }
}

void ChildProcess::end() {
  if (from_child_ >= 0) ::close(std::exchange(from_child_, -1));
  if (child_ < 0) return;
  ::kill(child_, SIGKILL);
  while (::waitpid(child_, nullptr, 0) < 0 && errno == EINTR) {
  }
  child_ = -1;
}

ChildProcess::~ChildProcess() {
  end();
}

}  // namespace dullcast::base
