#include "engine/base/threads.hpp"

#include <algorithm>
#include <exception>
#include <stdexcept>
#include <string>
#include <system_error>
#include <thread>
#include <utility>
#include <vector>

namespace dullcast::base {
namespace {

/// Whether this thread has a part in shared work just now. Kept by the thread, for what is between the outer
/// call and the inner one knows nothing of either.
thread_local bool shares_work = false;

class SharingWork {
 public:
  SharingWork() : before_(std::exchange(shares_work, true)) {}
  ~SharingWork() { shares_work = before_; }
  SharingWork(const SharingWork&) = delete;
  SharingWork& operator=(const SharingWork&) = delete;

 private:
  bool before_;
};

/// What a gate says beside how many threads it lets through.
enum Gate : int { called_off = -1, shut = 0 };

/// Whether fewer threads than asked for will do.
enum class Wanted { all, as_many_as_there_are };

[[noreturn]] void too_few(std::size_t started, int count, const std::error_code& reason) {
  throw std::system_error(reason, "only " + std::to_string(started) + " of " + std::to_string(count) +
                                      " threads could be started here; ask for fewer with --threads, or "
                                      "raise the limits on memory and processes");
}

/// Threads that run body(k), k in [0, count). They wait at the gate until all are there, so that none has
/// begun when one cannot be had. They end before what is returned does. Where fewer will do and one cannot be
/// had, half of those that could are let go again: what they take (a stack each) is what the work needs too.
std::vector<std::jthread> start_threads(int count, Wanted wanted, std::atomic<int>& gate,
                                        const std::function<void(int)>& body) {
  std::vector<std::jthread> threads;
  threads.reserve(static_cast<std::size_t>(std::max(count, 0)));
  const auto let_through = [&gate](int first) {
    gate = first > 0 ? first : called_off;
    gate.notify_all();
  };
  int kept = std::max(count, 0);
  try {
    for (int k = 0; k < count; ++k) {
      threads.emplace_back([&gate, &body, k] {
        gate.wait(shut);
        if (k < gate) body(k);
      });
    }
  } catch (const std::exception& failure) {
    if (wanted == Wanted::all) {
      let_through(called_off);
      const auto* refused = dynamic_cast<const std::system_error*>(&failure);
      too_few(threads.size(), count,
              refused ? refused->code() : std::make_error_code(std::errc::not_enough_memory));
    }
    kept = static_cast<int>(threads.size() / 2);
  }
  let_through(kept);
  if (std::ssize(threads) > kept) threads.erase(threads.begin() + kept, threads.end());
  return threads;
}

void throw_first(const std::vector<std::exception_ptr>& failures) {
  for (const std::exception_ptr& failure : failures) {
    if (failure) std::rethrow_exception(failure);
  }
}

}  // namespace

void parallel_for(int count, int threads, const std::function<void(int)>& work,
                  const std::atomic<bool>* stop) {
  std::vector<std::exception_ptr> failures(static_cast<std::size_t>(std::max(count, 0)));
  std::atomic<int> next{0};
  const std::function<void(int)> take_work = [&](int) {
    const SharingWork here;
    while (stop == nullptr || !*stop) {
      const int i = next++;
      if (i >= count) return;
      try {
        work(i);
      } catch (...) {
        failures[static_cast<std::size_t>(i)] = std::current_exception();
      }
    }
  };
  {
    std::atomic<int> gate{shut};
    const int helpers = shares_work ? 0 : std::min(threads, count) - 1;
    const std::vector<std::jthread> helping =
        start_threads(helpers, Wanted::as_many_as_there_are, gate, take_work);
    take_work(helpers);
  }
  throw_first(failures);
}

void work_beside(int threads, const std::function<void(int)>& work, const std::function<void()>& attend) {
  if (shares_work) throw std::logic_error("work_beside: called from inside work that is shared already");
  const SharingWork here;
  const auto attending = static_cast<std::size_t>(std::max(threads, 0));
  std::vector<std::exception_ptr> failures(attending + 1);
  const auto keep_failure = [&failures](std::size_t place, const auto& call) {
    try {
      call();
    } catch (...) {
      failures[place] = std::current_exception();
    }
  };
  const std::function<void(int)> body = [&](int k) {
    const SharingWork there;
    keep_failure(static_cast<std::size_t>(k), [&] { work(k); });
  };
  {
    std::atomic<int> gate{shut};
    const std::vector<std::jthread> working = start_threads(threads, Wanted::all, gate, body);
    keep_failure(attending, attend);
  }
  throw_first(failures);
}

}  // namespace dullcast::base
