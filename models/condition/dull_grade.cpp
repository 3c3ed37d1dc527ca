#include "models/condition/dull_grade.hpp"

#include <algorithm>

#include "models/common/domain.hpp"

namespace dullcast::condition {

DullGrade dull_grade(const Eigen::ArrayXd& radius, double bit_radius, const Eigen::ArrayXd& worn_height,
                     const Eigen::ArrayXd& usable_height) {
  require_domain(bit_radius > 0.0, "dull_grade", "the bit radius must be above 0 m", bit_radius);
  require_domain(worn_height.size() == radius.size(), "dull_grade",
                 "there must be one worn height per cutter radius", static_cast<double>(worn_height.size()));
  require_domain(usable_height.size() == radius.size(), "dull_grade",
                 "there must be one usable height per cutter radius",
                 static_cast<double>(usable_height.size()));
  struct Zone {
    double sum = 0.0;
    int cutters = 0;
    std::optional<double> grade() const {
      if (cutters == 0) return std::nullopt;
      return 8.0 * sum / cutters;
    }
  } inner, outer;
  for (Eigen::Index i = 0; i < radius.size(); ++i) {
    require_domain(radius[i] >= 0.0, "dull_grade", "a cutter's radius must be 0 m or more", radius[i]);
    require_domain(usable_height[i] > 0.0, "dull_grade", "a usable height must be above 0 m",
                   usable_height[i]);
    const double share = worn_height[i] / usable_height[i];
    require_domain(share == share, "dull_grade", "a worn height must be a number", worn_height[i]);
    Zone& zone = radius[i] <= 2.0 / 3.0 * bit_radius ? inner : outer;
    zone.sum += std::clamp(share, 0.0, 1.0);
    ++zone.cutters;
  }
  return {inner.grade(), outer.grade()};
}

}  // namespace dullcast::condition
