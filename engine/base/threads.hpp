#pragma once

#include <atomic>
#include <functional>

/// Everything that shares work among threads. It is our own, on std::jthread, because what shares work must
/// be provable under the thread sanitizer. oneTBB is not: its library is not built for the sanitizer, which
/// then does not see that work is handed over. Correct programs of 40 lines (g++ 12, oneTBB 2021.8, its
/// macros for threading tools set or not) gave up to 45 reports a run, some of them inside the work itself.
/// The one suppression that silenced tbb::parallel_for (any frame of tbb::detail) also hid a race planted in
/// the work, for all work has such a frame below it; tbb::task_group kept false reports even so.
namespace dullcast::base {

/// More threads than this are not asked for by anybody: there are few machines with as many, and every thread
/// takes memory of its own.
inline constexpr int most_threads = 1024;

/// Calls work(i) for every i in [0, count), at most `threads` at once, the calling thread among them; with
/// threads <= 1 on the calling thread alone, in order. work must only write to what belongs to its i. When
/// one throws, the others are done all the same, and then the exception of the lowest i is thrown again here.
/// Once `stop` is set nothing further is begun; what is in hand is done to its end. Called from inside work
/// that is shared already it uses the calling thread alone, so that threads do not multiply. Where the
/// machine starts fewer threads than asked for, those that there are do it all.
void parallel_for(int count, int threads, const std::function<void(int)>& work,
                  const std::atomic<bool>* stop = nullptr);

/// Calls work(k) for k in [0, threads), each on a thread of its own, while the calling thread, and no other,
/// runs `attend`; returns when all have ended. An exception of work does not end the others, nor attend: who
/// throws tells them. Afterwards the exception of the lowest k is thrown again here, attend's last of all.
/// Throws std::system_error, with nothing begun, when the threads cannot be had (what() says how many could
/// and what to ask for), and std::logic_error when called from inside work that is shared already: attend may
/// wait for threads, which would then be too many.
void work_beside(int threads, const std::function<void(int)>& work, const std::function<void()>& attend);

}  // namespace dullcast::base
