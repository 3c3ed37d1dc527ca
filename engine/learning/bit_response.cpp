#include "engine/learning/bit_response.hpp"

#include <algorithm>
#include <cmath>
#include <exception>
#include <mutex>
#include <stdexcept>
#include <utility>

#include "engine/base/machine_fault.hpp"
#include "engine/base/threads.hpp"

namespace dullcast::learning {
namespace {

/// Half of the way to the 90 % point: wide of what stepping leaves of noise, near enough to be straight.
constexpr double half_way = 0.5 * ninety_percent_point;

/// Slopes are of runs whose rods are added in no time, which spares most of their steps: what rods do to an
/// edge goes as what drilling does.
constexpr Eigen::Index none_moved = -1, none_moved_without_rods = -2;

struct Task {
  std::size_t bit = 0;
  Eigen::Index number = none_moved;
};

scenario::Scenario without_rods(scenario::Scenario run) {
  run.repeat.connection_time = 0.0;
  return run;
}

/// Bits that among them have every number, three at least where there are: the one with the most numbers not
/// had yet, and so on.
std::vector<std::size_t> bits_that_cover(const ShelfNumbers& numbers) {
  std::vector<bool> had(numbers.names.size(), false), taken(numbers.of_bit.size(), false);
  std::vector<std::size_t> bits;
  constexpr std::size_t least = 3;
  for (;;) {
    std::size_t best = 0;
    long most = -1;
    for (std::size_t r = 0; r < numbers.of_bit.size(); ++r) {
      if (taken[r]) continue;
      const auto fresh = std::count_if(numbers.of_bit[r].begin(), numbers.of_bit[r].end(),
                                       [&](Eigen::Index k) { return !had[static_cast<std::size_t>(k)]; });
      if (fresh > most) most = fresh, best = r;
    }
    if (most < 0 || (most == 0 && bits.size() >= least)) return bits;
    taken[best] = true;
    bits.push_back(best);
    for (const Eigen::Index k : numbers.of_bit[best]) had[static_cast<std::size_t>(k)] = true;
  }
}

}  // namespace

PredictedBit BitResponse::near(const Eigen::VectorXd& other) const {
  PredictedBit moved = at;
  for (std::size_t k = 0; k < slopes.size(); ++k) {
    if (slopes[k].size() == 0) continue;
    const auto index = static_cast<Eigen::Index>(k);
    moved.logs += slopes[k] * (other(index) - y(index));
  }
  moved.logs = moved.logs.max(log_of_nothing);
  return moved;
}

std::vector<BitResponse> responses(const std::vector<scenario::ShelvedBit>& shelf,
                                   const ShelfNumbers& numbers, const Eigen::VectorXd& y,
                                   const std::vector<bool>& anew, const std::vector<BitResponse>& before,
                                   int threads, const RunsTold& told) {
  const auto count = static_cast<std::size_t>(numbers.count());
  std::vector<Task> tasks;
  for (std::size_t r = 0; r < shelf.size(); ++r) {
    tasks.push_back({r, none_moved});
    const bool rods = shelf[r].run.repeat.connection_time > 0.0;
    bool any = false;
    for (const Eigen::Index k : numbers.of_bit[r]) {
      if (!anew[static_cast<std::size_t>(k)]) continue;
      if (!std::exchange(any, true) && rods) tasks.push_back({r, none_moved_without_rods});
      tasks.push_back({r, k});
    }
  }
  std::vector<std::optional<PredictedBit>> found(tasks.size());
  std::mutex telling;
  std::size_t done = 0;
  base::parallel_for(static_cast<int>(tasks.size()), threads, [&](int task) {
    const Task& one = tasks[static_cast<std::size_t>(task)];
    Eigen::VectorXd at = y;
    if (one.number >= 0) at(one.number) += half_way;
    try {
      const scenario::Scenario run = with_coordinates(shelf[one.bit].run, numbers, at);
      found[static_cast<std::size_t>(task)] = predict(one.number == none_moved ? run : without_rods(run));
    } catch (const std::exception& error) {
      if (base::is_machine_fault(error)) throw;
      if (one.number < 0)
        throw std::runtime_error("bit " + shelf[one.bit].found.bit + ", drilled again: " + error.what());
    }
    const std::lock_guard<std::mutex> lock(telling);
    if (told) told(static_cast<double>(++done), static_cast<double>(tasks.size()));
  });
  std::vector<BitResponse> result(shelf.size());
  Eigen::ArrayXXd unmoved;
  for (std::size_t task = 0; task < tasks.size(); ++task) {
    const Task& one = tasks[task];
    BitResponse& response = result[one.bit];
    if (one.number == none_moved_without_rods) {
      unmoved = found[task]->logs;
      continue;
    }
    if (one.number == none_moved) {
      response.at = *found[task];
      unmoved = response.at.logs;  // unless there are rods to leave out
      response.y = y;
      response.slopes = before.empty() ? std::vector<Eigen::ArrayXXd>(count) : before[one.bit].slopes;
      continue;
    }
    Eigen::ArrayXXd& slope = response.slopes[static_cast<std::size_t>(one.number)];
    if (found[task]) {
      slope = (found[task]->logs - unmoved) / half_way;
    } else {
      slope.resize(0, 0);
    }
  }
  return result;
}

std::vector<bool> numbers_that_matter(const std::vector<scenario::ShelvedBit>& shelf,
                                      const ShelfNumbers& numbers, int threads, const RunsTold& told) {
  const auto count = static_cast<std::size_t>(numbers.count());
  std::vector<scenario::ShelvedBit> few;
  ShelfNumbers theirs = numbers;
  theirs.of_bit.clear();
  for (const std::size_t r : bits_that_cover(numbers)) {
    few.push_back(shelf[r]);
    theirs.of_bit.push_back(numbers.of_bit[r]);
  }
  const std::vector<BitResponse> found = responses(few, theirs, Eigen::VectorXd::Zero(numbers.count()),
                                                   std::vector<bool>(count, true), {}, threads, told);
  std::vector<bool> matter(count, false);
  for (const BitResponse& response : found) {
    const bool heat = response.at.logs.col(heat_damage).maxCoeff() > std::log(1e-3);
    for (std::size_t k = 0; k < count; ++k) {
      const Eigen::ArrayXXd& slope = response.slopes[k];
      if (slope.size() == 0) continue;
      const auto most = [&](Trace trace) { return slope.col(trace).abs().maxCoeff(); };
      matter[k] = matter[k] || most(wear_gain) > 0.02 || most(chip_hazard) > 0.1 ||
                  (heat && most(heat_damage) > 0.33) || most(pocket_load) > 0.05 || most(bond_load) > 0.05;
    }
  }
  return matter;
}

}  // namespace dullcast::learning
