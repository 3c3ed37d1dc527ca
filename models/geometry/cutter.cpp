#include "models/geometry/cutter.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/common/domain.hpp"

namespace dullcast::geometry {

double face_friction_angle(double back_rake, const EdgeLaw& law) {
  const double psi = law.psi_at_reference - law.psi_slope * (back_rake - law.back_rake_reference);
  require_domain(!std::isnan(psi) && !std::isnan(law.psi_least), "face_friction_angle",
                 "the angle of the cutting force must be a number", psi);
  return std::max(law.psi_least, psi);
}

CuttingDirection cutting_direction(double back_rake, double side_rake, const EdgeLaw& law) {
  const double psi = face_friction_angle(back_rake, law), lean = back_rake + psi;
  require_domain(lean < pi / 2.0, "cutting_direction",
                 "back rake plus the angle of the cutting force must be under pi/2 rad", lean);
  require_domain(std::abs(side_rake) < pi / 2.0, "cutting_direction",
                 "the side rake must lie between -pi/2 and pi/2 rad", side_rake);
  const double tangent = std::tan(side_rake), cosine = std::cos(side_rake);
  const double drag = std::sin(psi) / std::cos(lean);
  const double along = 1.0 + tangent * tangent * drag;
  return {std::tan(lean) / (cosine * along), tangent * (1.0 - drag) / along,
          drag / (cosine * cosine * along)};
}

double bearing_land(const CutterShape& shape, double back_rake, const EdgeLaw& law) {
  if (shape.bevel_width == 0.0 || shape.bevel_angle == 0.0) return shape.edge_radius;
  require_domain(shape.bevel_width > 0.0, "bearing_land", "the bevel width must be 0 m or more",
                 shape.bevel_width);
  require_domain(shape.bevel_angle > 0.0 && back_rake + shape.bevel_angle < pi, "bearing_land",
                 "the bevel angle must be 0 or more, and with the back rake under pi rad", shape.bevel_angle);
  const double slope = std::cos(law.bevel_angle_reference) / std::cos(shape.bevel_angle);
  require_domain(law.bevel_width_reference > 0.0, "bearing_land",
                 "the reference bevel width must be above 0 m", law.bevel_width_reference);
  const double reference_sine = std::sin(law.back_rake_reference + law.bevel_angle_reference);
  require_domain(reference_sine > 0.0, "bearing_land",
                 "the sine of the reference back rake plus bevel angle must be above 0", reference_sine);
  require_domain(slope > 0.0, "bearing_land", "bevel angles must be under pi/2 rad", shape.bevel_angle);
  return shape.edge_radius + law.land_reference * (shape.bevel_width / law.bevel_width_reference) * slope *
                                 std::sin(back_rake + shape.bevel_angle) / reference_sine;
}

}  // namespace dullcast::geometry
