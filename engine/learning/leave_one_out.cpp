#include "engine/learning/leave_one_out.hpp"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "engine/base/threads.hpp"

namespace dullcast::learning {
namespace {

constexpr double wide = 1.0;                 // of ln(wear): says nothing beside any reading
constexpr double one_in_a_hundred = 2.5758;  // of a standard normal, on both sides [hb]
constexpr double nine_in_ten = 1.6449;       // likewise

/// ln(found/predicted) of a bit by its readings alone.
Reading paced(const scenario::InspectedBit& found, const PredictedBit& predicted, ReadingLaw law) {
  law.bit_spread = wide;
  return read_against(found, predicted, law);
}

/// Mean slope of ln(gain) over the cutters whose wear was read, or all where only grades were.
Eigen::VectorXd wear_slopes(const scenario::InspectedBit& found, const BitResponse& response,
                            Eigen::Index numbers) {
  std::vector<Eigen::Index> cutters;
  for (std::size_t i = 0; i < found.cutters.size(); ++i)
    if (found.cutters[i].tells_wear()) cutters.push_back(static_cast<Eigen::Index>(i));
  if (cutters.empty())
    for (Eigen::Index i = 0; i < response.at.radius.size(); ++i) cutters.push_back(i);
  Eigen::VectorXd slopes = Eigen::VectorXd::Zero(numbers);
  for (std::size_t k = 0; k < response.slopes.size(); ++k) {
    if (response.slopes[k].size() == 0) continue;
    for (const Eigen::Index i : cutters)
      slopes(static_cast<Eigen::Index>(k)) +=
          response.slopes[k](i, wear_gain) / static_cast<double>(cutters.size());
  }
  return slopes;
}

}  // namespace

std::vector<BitJudged> leave_one_out(const std::vector<scenario::ShelvedBit>& shelf, const ShelfFit& fit,
                                     int threads) {
  const Eigen::Index numbers = fit.numbers.count();
  const ShelfPosterior all(shelf, fit.responses, fit.numbers, fit.law);
  const Eigen::VectorXd mode = fit.learnt.mode;
  const Eigen::MatrixXd whole = curvature_of(all, mode, threads);
  std::vector<BitJudged> judged(shelf.size());
  base::parallel_for(static_cast<int>(shelf.size()), threads, [&](int bit) {
    const auto r = static_cast<std::size_t>(bit);
    BitJudged& one = judged[r];
    const scenario::InspectedBit& found = shelf[r].found;
    const Reading before = paced(found, fit.before[r].at, fit.law);
    one.tells_wear = before.tells_wear;
    if (!before.tells_wear) return;
    one.measured = std::any_of(found.cutters.begin(), found.cutters.end(),
                               [](const scenario::CutterSeen& cutter) { return cutter.tells_wear(); });
    one.before = before.bit_mean;
    const Eigen::VectorXd known_before = wear_slopes(found, fit.before[r], numbers);
    one.before_deviation = std::sqrt(before.bit_deviation * before.bit_deviation +
                                     fit.law.bit_spread * fit.law.bit_spread + known_before.squaredNorm());

    ShelfPosterior only = all, others = all;
    std::vector<bool> out(shelf.size(), true);
    out[r] = false;
    only.leave_out(out);
    std::vector<bool> left_out(shelf.size(), false);
    left_out[r] = true;
    others.leave_out(left_out);
    // What this bit alone bends the density by; the prior stands in both.
    const Eigen::MatrixXd own =
        curvature_of(only, mode, 1) - Eigen::MatrixXd::Identity(mode.size(), mode.size());
    Eigen::LLT<Eigen::MatrixXd> without(whole - own);
    if (without.info() != Eigen::Success) without.compute(whole);
    Eigen::VectorXd there = mode, gradient;
    constexpr int steps = 3;
    for (int k = 0; k < steps; ++k) {
      others.log_density(there, gradient);
      there += without.solve(gradient);
    }
    const ReadingLaw law = others.law_at(there);
    const Reading told = paced(found, fit.responses[r].near(there.head(numbers)), fit.law);
    one.told = told.bit_mean;
    Eigen::VectorXd slopes = Eigen::VectorXd::Zero(mode.size());
    slopes.head(numbers) = wear_slopes(found, fit.responses[r], numbers);
    one.told_deviation = std::sqrt(told.bit_deviation * told.bit_deviation + law.bit_spread * law.bit_spread +
                                   slopes.dot(without.solve(slopes)));
  });
  return judged;
}

PredictiveError predictive_error(const std::vector<BitJudged>& judged) {
  PredictiveError error;
  for (const BitJudged& one : judged) {
    if (!one.measured) continue;
    ++error.bits;
    error.before += one.before * one.before;
    error.told += one.told * one.told;
    if (std::abs(one.z_before()) <= nine_in_ten) ++error.within_before;
    if (std::abs(one.z_told()) <= nine_in_ten) ++error.within_told;
  }
  if (error.bits > 0) {
    error.before = std::sqrt(error.before / error.bits);
    error.told = std::sqrt(error.told / error.bits);
  }
  return error;
}

bool is_outlier(const BitJudged& judged) {
  return judged.tells_wear && std::abs(judged.z_told()) > one_in_a_hundred;
}

}  // namespace dullcast::learning
