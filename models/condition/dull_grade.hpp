#pragma once

#include <Eigen/Core>
#include <optional>

namespace dullcast::condition {

struct DullGrade {
  std::optional<double>
      inner;  // 0..8 over the inner two thirds of the radius; none when no cutter sits there
  std::optional<double> outer;  // 0..8 over the outer third
};

/// Dull grade after the IADC fixed-cutter system, SPE 23939, 1992 [pub]:
/// 8 mean(min(1, u/u_use)) over a zone's cutters. All arrays one entry per cutter, m; u_use > 0 is the usable
/// height. A lost cutter is given a worn height of u_use or more (infinity will do); one at exactly two
/// thirds of the radius counts as inner. Throws std::domain_error for differing lengths, a usable height not
/// above 0 or a NaN.
DullGrade dull_grade(const Eigen::ArrayXd& radius, double bit_radius, const Eigen::ArrayXd& worn_height,
                     const Eigen::ArrayXd& usable_height);

}  // namespace dullcast::condition
