#pragma once

#include <functional>

namespace dullcast::base {

/// Calls work(i) for every i in [0, count) on up to `threads` threads. work must only write to what belongs
/// to its i. The first exception (by i) is thrown again here after all threads have ended.
void parallel_for(int count, int threads, const std::function<void(int)>& work);

}  // namespace dullcast::base
