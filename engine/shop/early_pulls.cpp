#include "engine/shop/early_pulls.hpp"

#include <algorithm>
#include <map>
#include <mutex>

#include "engine/base/threads.hpp"
#include "engine/shop/future.hpp"
#include "engine/shop/future_figures.hpp"

namespace dullcast::shop {
namespace {

constexpr double least_share = 0.2;  // of the futures, for a candidate
constexpr int holes_before = 2;      // the one in which it falls due, that are looked at

std::vector<Pull> candidates(const ShopPlan& plan, const std::vector<DrilledFuture>& futures) {
  std::map<std::pair<std::size_t, std::size_t>, int> counts;
  for (const DrilledFuture& future : futures) {
    for (std::size_t bit = 0; bit < plan.bits.size(); ++bit) {
      const auto& out = future.log.out;
      const auto first =
          std::find_if(out.begin(), out.end(), [&](const OutOfHole& one) { return one.bit == bit; });
      if (first == out.end()) continue;
      std::vector<std::size_t> before;
      for (const Pull& drilled : future.log.drilled) {
        if (drilled.bit != bit) continue;
        if (drilled.after_hole == first->hole) break;
        before.push_back(drilled.after_hole);
      }
      for (int back = 0; back < holes_before && back < static_cast<int>(before.size()); ++back)
        ++counts[{bit, before[before.size() - 1 - static_cast<std::size_t>(back)]}];
    }
  }
  std::vector<std::pair<int, Pull>> order;
  for (const auto& [pull, count] : counts) {
    if (count >= least_share * static_cast<double>(futures.size()))
      order.push_back({count, {pull.first, pull.second}});
  }
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first > b.first; });
  std::vector<Pull> found;
  for (std::size_t k = 0; k < std::min(order.size(), most_candidates); ++k) found.push_back(order[k].second);
  return found;
}

/// A trial's figures in some of the futures.
struct Tried {
  std::vector<FutureFigures> figures;
  std::vector<Instant> pulled_at;  // of the last pull; never where there was none
};

/// Runs trials on the futures [first, last).
class Trials {
 public:
  Trials(const ShopPlan& plan, std::vector<DrilledFuture>& futures, std::size_t first, std::size_t last,
         const PullSearch& search, double all)
      : plan_(plan), futures_(futures), first_(first), last_(last), search_(search), all_(all) {}

  /// One a trial, future by future: what is drilled for one is known to the next.
  std::vector<Tried> run(const std::vector<Trial>& trials, double& done) {
    const std::size_t count = last_ - first_;
    std::vector<Tried> tried(trials.size(),
                             {std::vector<FutureFigures>(count), std::vector<Instant>(count, never)});
    std::mutex telling;
    base::parallel_for(static_cast<int>(count), search_.threads, [&](int f) {
      const auto k = static_cast<std::size_t>(f);
      for (std::size_t t = 0; t < trials.size(); ++t) {
        const FutureLog log = simulate_future(plan_, *futures_[first_ + k].drill, trials[t]);
        tried[t].figures[k] = figures_of(log);
        if (trials[t].pulls.empty()) continue;
        const Pull& last = trials[t].pulls.back();
        for (const OutOfHole& out : log.out)
          if (out.why == "pulled" && out.bit == last.bit && out.hole == last.after_hole)
            tried[t].pulled_at[k] = out.at;
      }
      futures_[first_ + k].drill->rest();
      const std::lock_guard<std::mutex> lock(telling);
      done += static_cast<double>(trials.size());
      if (search_.progress) search_.progress(std::min(done, all_), all_);
    });
    return tried;
  }

 private:
  const ShopPlan& plan_;
  std::vector<DrilledFuture>& futures_;
  std::size_t first_, last_;
  const PullSearch& search_;
  double all_;
};

storage::EarlyPull told(const Pull& pull, const Tried& with, const Tried& without) {
  storage::EarlyPull early;
  early.bit = static_cast<int>(pull.bit);
  early.after_hole = static_cast<int>(pull.after_hole);
  std::vector<double> at;
  for (const Instant one : with.pulled_at)
    if (one < never) at.push_back(one);
  early.in_use = static_cast<double>(at.size()) / static_cast<double>(with.pulled_at.size());
  early.at = spread_of(std::move(at)).middle;
  tell_more(early, with.figures, without.figures);
  return early;
}

}  // namespace

EarlyPulls seek_early_pulls(const ShopPlan& plan, std::vector<DrilledFuture>& futures,
                            const PullSearch& search) {
  EarlyPulls found;
  constexpr std::size_t fewest = 4;
  if (search.most < 1 || futures.size() < fewest) return found;
  std::vector<Pull> left = candidates(plan, futures);
  found.tried = static_cast<int>(left.size());
  const std::size_t half = futures.size() / 2, screened = std::min(half, most_screened);
  const double all = static_cast<double>(screened) * search.most * static_cast<double>(left.size() + 1) +
                     static_cast<double>(futures.size() - half) * (search.most + 1);
  double done = 0.0;
  Trials screen(plan, futures, 0, screened, search, all);
  const auto figure = search.by_money ? &FutureFigures::total : &FutureFigures::late_time;
  std::vector<Pull> kept;
  while (kept.size() < static_cast<std::size_t>(search.most) && !left.empty()) {
    std::vector<Trial> trials(left.size() + 1);
    for (std::size_t t = 0; t < trials.size(); ++t) {
      trials[t].pulls = kept;
      if (t > 0) trials[t].pulls.push_back(left[t - 1]);
    }
    const std::vector<Tried> tried = screen.run(trials, done);
    std::size_t best = 0;
    double least = 0.0;
    for (std::size_t t = 1; t < tried.size(); ++t) {
      const statistics::MeanError gain = more(tried[t].figures, tried[0].figures, figure);
      if (!(gain.mean < -2.0 * gain.error) || !(gain.mean < least)) continue;
      least = gain.mean;
      best = t;
    }
    if (best == 0) break;
    kept.push_back(left[best - 1]);
    left.erase(left.begin() + static_cast<std::ptrdiff_t>(best) - 1);
  }
  if (kept.empty()) return found;
  std::vector<Trial> trials(kept.size() + 1);
  for (std::size_t t = 1; t < trials.size(); ++t)
    trials[t].pulls.assign(kept.begin(), kept.begin() + static_cast<std::ptrdiff_t>(t));
  const std::vector<Tried> tried = Trials(plan, futures, half, futures.size(), search, all).run(trials, done);
  for (std::size_t t = 1; t < trials.size(); ++t)
    found.pulls.push_back(told(kept[t - 1], tried[t], tried[t - 1]));
  return found;
}

}  // namespace dullcast::shop
