#include <exception>
#include <stdexcept>

#include "engine/base/threads.hpp"

// A page computes on one thread: what engine/base/threads.cpp shares among several is done in order here.
namespace dullcast::base {

void parallel_for(int count, int, const std::function<void(int)>& work, const std::atomic<bool>* stop) {
  std::exception_ptr first;
  for (int i = 0; i < count && (stop == nullptr || !*stop); ++i) {
    try {
      work(i);
    } catch (...) {
      if (!first) first = std::current_exception();
    }
  }
  if (first) std::rethrow_exception(first);
}

void work_beside(int, const std::function<void(int)>&, const std::function<void()>&) {
  throw std::logic_error("work_beside: a page has one thread");
}

}  // namespace dullcast::base
