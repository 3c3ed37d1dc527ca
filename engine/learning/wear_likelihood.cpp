#include "engine/learning/wear_likelihood.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/statistics/normal_law.hpp"
#include "models/common/constants.hpp"

namespace dullcast::learning {
namespace {

double normal_density(double x) {
  return std::exp(-0.5 * x * x) / std::sqrt(two_pi);
}

/// Chance between two points, whichever tail they lie in.
double normal_between(double low, double high) {
  return low > 0.0 ? statistics::standard_normal_share(-low) - statistics::standard_normal_share(-high)
                   : statistics::standard_normal_share(high) - statistics::standard_normal_share(low);
}

}  // namespace

std::optional<double> zone_grade(const PredictedBit& bit, const Eigen::ArrayXd& worn_height,
                                 const std::vector<bool>& gone, bool outer, Eigen::ArrayXd* slope) {
  if (slope) slope->setZero(worn_height.size());
  double sum = 0.0, count = 0.0;
  for (Eigen::Index i = 0; i < worn_height.size(); ++i) {
    if ((3.0 * bit.radius(i) > 2.0 * bit.bit_radius) != outer) continue;
    count += 1.0;
    const double share = worn_height(i) / bit.usable_height(i);
    const bool whole = gone[static_cast<std::size_t>(i)] || share >= 1.0;
    sum += whole ? 1.0 : share;
    if (slope && !whole) (*slope)(i) = 8.0 / bit.usable_height(i);
  }
  if (!(count > 0.0)) return std::nullopt;
  if (slope) *slope /= count;
  return 8.0 * sum / count;
}

WearFindings::WearFindings(const scenario::InspectedBit& found, const PredictedBit& predicted,
                           const ReadingLaw& law)
    : found_(&found),
      predicted_(&predicted),
      law_(&law),
      gone_(static_cast<std::size_t>(predicted.radius.size())) {
  for (std::size_t i = 0; i < found.cutters.size(); ++i) {
    gone_[i] = found.cutters[i].lost;
    if (found.cutters[i].tells_wear()) ++heights_;
  }
  tell_ = heights_ > 0 || found.inner_grade || found.outer_grade;
}

double WearFindings::least_deviation() const {
  const double scatter = std::max(law_->cutter_scatter, 1e-3);
  return 1.0 / std::sqrt(1.0 / (law_->bit_spread * law_->bit_spread) + heights_ / (scatter * scatter));
}

void WearFindings::at(double b, WearAt& result) const {
  const Eigen::ArrayXd gain = (predicted_->logs.col(wear_gain) + b).exp();
  const Eigen::ArrayXd worn = predicted_->starting_wear + gain;
  result.log_likelihood = 0.0;
  result.slope.setZero(gain.size());
  add_heights(worn, gain, result);
  add_grade(found_->inner_grade, false, worn, gain, result);
  add_grade(found_->outer_grade, true, worn, gain, result);
}

void WearFindings::add_heights(const Eigen::ArrayXd& worn, const Eigen::ArrayXd& gain, WearAt& result) const {
  const double scatter = law_->cutter_scatter, error = found_->measurement_error, misread = law_->misread;
  for (std::size_t k = 0; k < found_->cutters.size(); ++k) {
    const scenario::CutterSeen& seen = found_->cutters[k];
    if (!seen.tells_wear()) continue;
    const auto i = static_cast<Eigen::Index>(k);
    const double v = worn(i), variance = error * error + scatter * scatter * v * v;
    const double deviation = std::sqrt(variance), x = (*seen.worn_height - v) / deviation;
    // By v: of the mean, and of the deviation that grows with it.
    const double slope_of_x = -1.0 / deviation - x * scatter * scatter * v / variance;
    double likelihood = 0.0, slope = 0.0;
    if (seen.at_least) {
      likelihood = (1.0 - misread) * statistics::standard_normal_share(-x) + misread * 0.5;
      slope = -(1.0 - misread) * normal_density(x) * slope_of_x;
    } else {
      // The unit of the density is the usable height, so that a misread one has density 1. By logarithms, for
      // where nothing is misread a reading may lie where the bell is less than any number.
      const double log_density =
          -0.5 * x * x + std::log(predicted_->usable_height(i) / (deviation * std::sqrt(two_pi)));
      const double log_slope = -x * slope_of_x - scatter * scatter * v / variance;
      if (!(misread > 0.0)) {
        result.log_likelihood += log_density;
        result.slope(i) += log_slope * gain(i);
        continue;
      }
      const double density = std::exp(log_density);
      likelihood = (1.0 - misread) * density + misread;
      slope = (1.0 - misread) * density * log_slope;
    }
    result.log_likelihood += std::log(likelihood);
    result.slope(i) += slope / likelihood * gain(i);
  }
}

void WearFindings::add_grade(const std::optional<scenario::GradeSeen>& seen, bool outer,
                             const Eigen::ArrayXd& worn, const Eigen::ArrayXd& gain, WearAt& result) const {
  if (!seen) return;
  Eigen::ArrayXd grade_slope;
  const std::optional<double> grade = zone_grade(*predicted_, worn, gone_, outer, &grade_slope);
  if (!grade) return;
  const double infinite = std::numeric_limits<double>::infinity();
  const double low = seen->grade <= 0.0 ? -infinite : (seen->grade - 0.5 - *grade) / law_->grade_error;
  const double high =
      seen->at_least || seen->grade >= 8.0 ? infinite : (seen->grade + 0.5 - *grade) / law_->grade_error;
  const double likelihood = (1.0 - law_->misread) * normal_between(low, high) + law_->misread / 9.0;
  const double by_grade =
      -(1.0 - law_->misread) * (normal_density(high) - normal_density(low)) / law_->grade_error / likelihood;
  result.log_likelihood += std::log(likelihood);
  result.slope += by_grade * grade_slope * gain;
}

}  // namespace dullcast::learning
