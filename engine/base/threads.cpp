#include "engine/base/threads.hpp"

#include <algorithm>
#include <exception>
#include <stdexcept>
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

enum Gate : int { shut, open, called_off };

/// Threads that run body(k), k in [0, count). They wait at the gate until all are there, so that none has
/// begun when one cannot be had. They end before what is returned does.
std::vector<std::jthread> start_threads(int count, std::atomic<int>& gate,
                                        const std::function<void(int)>& body) {
  std::vector<std::jthread> threads;
  const auto let_through = [&gate](Gate how) {
    gate = how;
    gate.notify_all();
  };
  try {
    for (int k = 0; k < count; ++k) {
      threads.emplace_back([&gate, &body, k] {
        gate.wait(shut);
        if (gate == open) body(k);
      });
    }
  } catch (...) {
    let_through(called_off);
    throw;
  }
  let_through(open);
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
    const std::vector<std::jthread> helping = start_threads(helpers, gate, take_work);
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
    const std::vector<std::jthread> working = start_threads(threads, gate, body);
    keep_failure(attending, attend);
  }
  throw_first(failures);
}

}  // namespace dullcast::base
