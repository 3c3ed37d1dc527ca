#include "engine/base/parallel.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <thread>
#include <vector>

namespace dullcast::base {

void parallel_for(int count, int threads, const std::function<void(int)>& work) {
  std::vector<std::exception_ptr> failures(static_cast<std::size_t>(count));
  std::atomic<int> next{0};
  const auto take_work = [&] {
    for (int i = next++; i < count; i = next++) {
      try {
        work(i);
      } catch (...) {
        failures[static_cast<std::size_t>(i)] = std::current_exception();
      }
    }
  };
  std::vector<std::thread> helpers;
  for (int k = 1; k < std::min(threads, count); ++k) helpers.emplace_back(take_work);
  take_work();
  for (std::thread& helper : helpers) helper.join();
  for (const std::exception_ptr& failure : failures) {
    if (failure) std::rethrow_exception(failure);
  }
}

}  // namespace dullcast::base
