#include "models/geometry/outline.hpp"

#include <algorithm>
#include <cmath>

namespace dullcast::geometry {
namespace {
/// Below this cosine the flat stands upright and limits the reach only.
constexpr double upright_cosine = 1e-9;
}  // namespace

double Outline::depth_at(double r) const {
  const double from_centre = r - centre_r;
  const double under_root = std::max(0.0, (half_reach - from_centre) * (half_reach + from_centre));
  const double on_ellipse = lean * from_centre + height_scale * std::sqrt(under_root);
  if (cosine < upright_cosine) return centre_z + on_ellipse;
  const double on_flat = (flat_level - from_centre * sine) / cosine;
  return centre_z + std::min(on_ellipse, on_flat);
}

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
  o.flat_level = (o.a - u) * o.rake_cosine;
  const double half_flat = std::sqrt(std::max(0.0, u * (2.0 * o.a - u))) * o.side_cosine;
  const double flat_shift = (o.a - u) * o.rake_sine * o.side_sine;
  const double flat_middle = o.centre_r + o.flat_level * o.sine - flat_shift * o.cosine;
  o.flat_inner = flat_middle - half_flat * o.cosine;
  o.flat_outer = flat_middle + half_flat * o.cosine;
  // Height along the normal of the ellipse's outermost point (the innermost one is its mirror image):
  const double outermost_height = b * p_y / o.half_reach;
  o.reach_outer = outermost_height <= o.flat_level ? o.centre_r + o.half_reach : o.flat_outer;
  o.reach_inner = -outermost_height <= o.flat_level ? o.centre_r - o.half_reach : o.flat_inner;
  return o;
}

}  // namespace dullcast::geometry
