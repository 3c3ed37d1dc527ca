#pragma once

#include "engine/learning/bit_response.hpp"
#include "engine/learning/reading_likelihood.hpp"

namespace dullcast::learning {

/// What is thought of the numbers once a shelf was read, with what is predicted of each bit taken as straight
/// near one place. Its parameters are the coordinates of the numbers, then one for the spread from bit to
/// bit, ln(spread/spread before) over log_spread_deviation: standard normal all of them before.
class ShelfPosterior {
 public:
  /// The shelf and the responses must outlive it.
  ShelfPosterior(const std::vector<scenario::ShelvedBit>& shelf, const std::vector<BitResponse>& responses,
                 const ShelfNumbers& numbers, const ReadingLaw& law);

  /// Standard deviation of ln(bit_spread) before: a factor of 1.5 for one shop in three [asm].
  static constexpr double log_spread_deviation = 0.4;

  Eigen::Index size() const { return numbers_ + 1; }
  /// Leaves bits out (true), for who asks what the others say of them.
  void leave_out(std::vector<bool> bits) { left_out_ = std::move(bits); }
  /// ln of the density but for a constant, and its gradient.
  double log_density(const Eigen::VectorXd& parameters, Eigen::VectorXd& gradient) const;
  /// The law with the spread that the parameters say.
  ReadingLaw law_at(const Eigen::VectorXd& parameters) const;
  /// Which parameters anything depends on.
  std::vector<Eigen::Index> telling() const;

 private:
  const std::vector<scenario::ShelvedBit>* shelf_;
  const std::vector<BitResponse>* responses_;
  ReadingLaw law_;
  Eigen::Index numbers_;
  std::vector<bool> left_out_;
};

}  // namespace dullcast::learning
