#include "engine/learning/shelf_posterior.hpp"

#include <algorithm>
#include <cmath>

namespace dullcast::learning {
namespace {

constexpr double no_slope = 1e-4;  // of a logarithm by a coordinate: a hundredth of what a run is wrong by

}  // namespace

ShelfPosterior::ShelfPosterior(const std::vector<scenario::ShelvedBit>& shelf,
                               const std::vector<BitResponse>& responses, const ShelfNumbers& numbers,
                               const ReadingLaw& law)
    : shelf_(&shelf),
      responses_(&responses),
      law_(law),
      numbers_(numbers.count()),
      left_out_(shelf.size(), false) {}

ReadingLaw ShelfPosterior::law_at(const Eigen::VectorXd& parameters) const {
  ReadingLaw law = law_;
  law.bit_spread *= std::exp(log_spread_deviation * parameters(numbers_));
  return law;
}

double ShelfPosterior::log_density(const Eigen::VectorXd& parameters, Eigen::VectorXd& gradient) const {
  const Eigen::VectorXd y = parameters.head(numbers_);
  const ReadingLaw law = law_at(parameters);
  double density = -0.5 * parameters.squaredNorm();
  gradient = -parameters;
  for (std::size_t r = 0; r < shelf_->size(); ++r) {
    if (left_out_[r]) continue;
    const BitResponse& response = (*responses_)[r];
    const Reading reading = read_against((*shelf_)[r].found, response.near(y), law);
    density += reading.log_likelihood;
    for (std::size_t k = 0; k < response.slopes.size(); ++k) {
      if (response.slopes[k].size() == 0) continue;
      gradient(static_cast<Eigen::Index>(k)) += (reading.slope * response.slopes[k]).sum();
    }
    gradient(numbers_) += reading.slope_of_spread * log_spread_deviation;
  }
  return density;
}

std::vector<Eigen::Index> ShelfPosterior::telling() const {
  std::vector<Eigen::Index> found;
  for (Eigen::Index k = 0; k < numbers_; ++k) {
    const bool tells = std::any_of(responses_->begin(), responses_->end(), [&](const BitResponse& response) {
      const Eigen::ArrayXXd& slope = response.slopes[static_cast<std::size_t>(k)];
      return slope.size() > 0 && slope.abs().maxCoeff() > no_slope;
    });
    if (tells) found.push_back(k);
  }
  found.push_back(numbers_);
  return found;
}

}  // namespace dullcast::learning
