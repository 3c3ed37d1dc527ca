#include "tools/commands/machine_limits.hpp"

#include <sys/resource.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <new>

#include "tools/commands/command.hpp"

#ifdef __GLIBC__
#include <malloc.h>
#endif

namespace dullcast::commands {
namespace {

void tell(const char* sentence) {
  // Nothing is left to do where this fails.
  const auto ignored = ::write(STDERR_FILENO, sentence, std::strlen(sentence));
  static_cast<void>(ignored);
}

[[noreturn]] void end_with_a_sentence() {
  try {
    if (std::current_exception()) std::rethrow_exception(std::current_exception());
    tell("dullcast: stopped at a place from which it cannot go on; nothing more was written\n");
  } catch (const std::bad_alloc&) {
    tell_no_memory();
  } catch (const std::exception& error) {
    tell("dullcast: stopped, and nothing more was written: ");
    tell(error.what());
    tell("\n");
  } catch (...) {
    tell("dullcast: stopped by a failure without a name; nothing more was written\n");
  }
  std::_Exit(failed);
}

}  // namespace

void stand_the_machines_limits() {
  std::signal(SIGXFSZ, SIG_IGN);
  std::set_terminate(end_with_a_sentence);
#ifdef __GLIBC__
  // Every thread's own store of memory takes a hundred megabytes of addresses at once; where those are
  // limited and it cannot be had, each of its small pieces becomes a page. One store for all threads does
  // not, and is as fast, for runs ask for little.
  struct rlimit addresses {};
  if (::getrlimit(RLIMIT_AS, &addresses) == 0 && addresses.rlim_cur != RLIM_INFINITY)
    ::mallopt(M_ARENA_MAX, 1);
#endif
}

void tell_no_memory() {
  tell("dullcast: there is not enough memory, or a limit (ulimit -v) allows no more\n");
}

}  // namespace dullcast::commands
