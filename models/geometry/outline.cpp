#include "models/geometry/outline.hpp"

#include <algorithm>
#include <cmath>

namespace dullcast::geometry {
namespace {
/// Below this cosine the flat stands upright and limits the reach only.
constexpr double upright_cosine = 1e-9;
}  // namespace

Outline make_outline(const BitLayout& bit, Eigen::Index i, double u) {
  Outline o;
  o.a = bit.shape(i).radius;
  o.rake_sine = std::sin(bit.back_rake(i));
  o.rake_cosine = std::cos(bit.back_rake(i));
  o.side_sine = std::sin(bit.side_rake(i));
  o.side_cosine = std::cos(bit.side_rake(i));
  o.sine = std::sin(bit.profile_angle(i));
  o.cosine = std::cos(bit.profile_angle(i));
  // Of the disc's points (x, y): along the profile narrow x - shift y, along the normal b/a y.
  const double narrow = o.a * o.side_cosine, shift = o.a * o.rake_sine * o.side_sine;
  const double b = o.a * o.rake_cosine;
  o.centre_r = bit.radius(i) - b * o.sine + shift * o.cosine;
  o.centre_z = bit.depth(i) - b * o.cosine - shift * o.sine;
  // Radius is p . (x, y)/a from the centre's, depth q . (x, y)/a.
  const double p_x = narrow * o.cosine, p_y = b * o.sine - shift * o.cosine;
  const double q_x = -narrow * o.sine, q_y = b * o.cosine + shift * o.sine;
  o.half_reach = std::hypot(p_x, p_y);
  o.lean = (p_x * q_x + p_y * q_y) / (o.half_reach * o.half_reach);
  o.height_scale = narrow * b / (o.half_reach * o.half_reach);
  if (o.cosine >= upright_cosine) {
    o.tangent = o.sine / o.cosine;
    o.secant = 1.0 / o.cosine;
  }
  o.face_along = 1.0 / o.side_cosine;
  o.face_high = o.rake_sine / o.rake_cosine * o.side_sine / o.side_cosine;
  o.outermost_height = b * p_y / o.half_reach;  // the innermost point is its mirror image
  o.wear_to(u);
  return o;
}

void Outline::wear_to(double u) {
  flat_level = (a - u) * rake_cosine;
  const double half_flat = std::sqrt(std::max(0.0, u * (2.0 * a - u))) * side_cosine;
  const double flat_shift = (a - u) * rake_sine * side_sine;
  const double flat_middle = centre_r + flat_level * sine - flat_shift * cosine;
  flat_inner = flat_middle - half_flat * cosine;
  flat_outer = flat_middle + half_flat * cosine;
  reach_outer = outermost_height <= flat_level ? centre_r + half_reach : flat_outer;
  reach_inner = -outermost_height <= flat_level ? centre_r - half_reach : flat_inner;
}

}  // namespace dullcast::geometry
