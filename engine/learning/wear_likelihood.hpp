#pragma once

#include "engine/learning/reading_likelihood.hpp"

namespace dullcast::learning {

/// ln likelihood of heights and grades where the bit wore e^b times as fast as predicted.
struct WearAt {
  double log_likelihood = 0.0;
  Eigen::ArrayXd slope;  // by ln(gain) of each cutter
};

/// What was found of a bit's wear, against any prediction of it.
class WearFindings {
 public:
  WearFindings(const scenario::InspectedBit& found, const PredictedBit& predicted, const ReadingLaw& law);
  bool tell() const { return tell_; }
  /// The smallest deviation of b that these findings could leave.
  double least_deviation() const;
  void at(double b, WearAt& result) const;

 private:
  void add_heights(const Eigen::ArrayXd& worn, const Eigen::ArrayXd& gain, WearAt& result) const;
  void add_grade(const std::optional<scenario::GradeSeen>& seen, bool outer, const Eigen::ArrayXd& worn,
                 const Eigen::ArrayXd& gain, WearAt& result) const;

  const scenario::InspectedBit* found_;
  const PredictedBit* predicted_;
  const ReadingLaw* law_;
  std::vector<bool> gone_;
  int heights_ = 0;
  bool tell_ = false;
};

}  // namespace dullcast::learning
