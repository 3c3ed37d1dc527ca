#include "models/cutting/gauge.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"
#include "models/geometry/outline.hpp"

namespace dullcast::cutting {

LateralLoad lateral_imbalance(const geometry::BitLayout& bit, const Eigen::ArrayXd& tangential_force,
                              const Eigen::ArrayXd& radial_force) {
  // x towards azimuth 0, y towards azimuth 90 deg. At azimuth A outward is (cos A, sin A) and the travel is
  // (-sin A, cos A).
  double x = 0.0, y = 0.0;
  for (Eigen::Index i = 0; i < bit.count(); ++i) {
    const double cosine = std::cos(bit.azimuth(i)), sine = std::sin(bit.azimuth(i));
    x += tangential_force(i) * sine - radial_force(i) * cosine;
    y += -tangential_force(i) * cosine - radial_force(i) * sine;
  }
  const double direction = std::atan2(y, x);
  LateralLoad load{std::hypot(x, y), direction < 0.0 ? direction + two_pi : direction};
  // A tiny negative angle plus 2 pi rounds to 2 pi.
  if (load.direction >= two_pi) load.direction = 0.0;
  if (load.force == 0.0) load.direction = 0.0;
  return load;
}

double gauge_loss(const geometry::BitLayout& bit, const Eigen::ArrayXd& worn_height) {
  double unworn_reach = 0.0, reach = 0.0;
  // No cutter reaches further out than a radius from its tip, or three where that looks inward or its face is
  // turned. The outermost come last as a rule.
  const auto within = [&](Eigen::Index i) {
    const bool plain = bit.profile_angle(i) >= 0.0 && bit.side_rake(i) == 0.0;
    return bit.radius(i) + (plain ? 1.0 : 3.0) * bit.shape(i).radius;
  };
  for (Eigen::Index i = bit.count() - 1; i >= 0; --i) {
    const double u = at_least(worn_height(i), 0.0);
    if (std::isnan(u)) return u;
    if (within(i) <= std::min(unworn_reach, reach)) continue;
    unworn_reach = at_least(geometry::make_outline(bit, i, 0.0).reach_outer, unworn_reach);
    if (u < 2.0 * bit.shape(i).radius) reach = at_least(geometry::make_outline(bit, i, u).reach_outer, reach);
  }
  return at_least(unworn_reach - reach, 0.0);
}

Eigen::ArrayXi gauge_cutters(const geometry::BitLayout& bit) {
  constexpr double tolerance = 1e-3;  // m
  Eigen::ArrayXi at_gauge(bit.count());
  for (Eigen::Index i = 0; i < bit.count(); ++i)
    at_gauge(i) = geometry::make_outline(bit, i, 0.0).reach_outer > bit.bit_radius - tolerance ? 1 : 0;
  return at_gauge;
}

double hole_diameter_loss(const geometry::BitLayout& bit, const Eigen::ArrayXd& worn_height,
                          const Eigen::ArrayXi& lost) {
  return 2.0 * gauge_loss(bit, (lost != 0).select(2.0 * geometry::cutter_radii(bit), worn_height));
}

double pad_clearance(double pad_wear, double gauge_loss) {
  return pad_wear - gauge_loss;
}

}  // namespace dullcast::cutting
