#include "engine/learning/bit_response.hpp"

#include <exception>
#include <mutex>

#include "engine/base/machine_fault.hpp"
#include "engine/base/threads.hpp"

namespace dullcast::learning {
namespace {

/// Half of the way to the 90 % point: wide of what stepping leaves of noise, near enough to be straight.
constexpr double half_way = 0.5 * ninety_percent_point;

struct Task {
  std::size_t bit = 0;
  Eigen::Index number = -1;  // -1: none is moved
};

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
    tasks.push_back({r, -1});
    for (const Eigen::Index k : numbers.of_bit[r])
      if (anew[static_cast<std::size_t>(k)]) tasks.push_back({r, k});
  }
  std::vector<std::optional<PredictedBit>> found(tasks.size());
  std::mutex telling;
  std::size_t done = 0;
  base::parallel_for(static_cast<int>(tasks.size()), threads, [&](int task) {
    const Task& one = tasks[static_cast<std::size_t>(task)];
    Eigen::VectorXd at = y;
    if (one.number >= 0) at(one.number) += half_way;
    try {
      found[static_cast<std::size_t>(task)] = predict(with_coordinates(shelf[one.bit].run, numbers, at));
    } catch (const std::exception& error) {
      if (one.number < 0 || base::is_machine_fault(error)) throw;
    }
    const std::lock_guard<std::mutex> lock(telling);
    if (told) told(static_cast<double>(++done), static_cast<double>(tasks.size()));
  });
  std::vector<BitResponse> result(shelf.size());
  for (std::size_t task = 0; task < tasks.size(); ++task) {
    const Task& one = tasks[task];
    BitResponse& response = result[one.bit];
    if (one.number < 0) {
      response.at = *found[task];
      response.y = y;
      response.slopes = before.empty() ? std::vector<Eigen::ArrayXXd>(count) : before[one.bit].slopes;
      continue;
    }
    Eigen::ArrayXXd& slope = response.slopes[static_cast<std::size_t>(one.number)];
    if (found[task]) {
      slope = (found[task]->logs - response.at.logs) / half_way;
    } else {
      slope.resize(0, 0);
    }
  }
  return result;
}

}  // namespace dullcast::learning
