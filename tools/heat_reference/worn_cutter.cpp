#include "tools/heat_reference/worn_cutter.hpp"

#include <algorithm>
#include <boost/math/tools/roots.hpp>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/common/domain.hpp"
#include "models/geometry/wear_flat.hpp"

namespace dullcast::heat_reference {

void require_cutter(const WornCutter& c) {
  const geometry::CutterShape& s = c.shape;
  constexpr const char* us = "worn cutter";
  require_domain(s.radius > 0.0 && std::isfinite(s.radius), us, "radius must be above 0", s.radius);
  require_domain(s.length > s.table_thickness && std::isfinite(s.length), us,
                 "length must exceed the table's thickness", s.length);
  require_domain(s.table_thickness > 0.0, us, "table thickness must be above 0", s.table_thickness);
  require_domain(c.back_rake > 0.0 && c.back_rake < 0.5 * pi, us, "back rake must be above 0 and under pi/2",
                 c.back_rake);
  require_domain(c.worn >= 0.0 && c.worn < s.radius, us,
                 "worn height must be at least 0 and under the radius", c.worn);
  require_domain(c.exposed_share >= 0.0 && c.exposed_share <= 1.0, us, "exposed share must be 0 to 1",
                 c.exposed_share);
  require_domain(s.bevel_width >= 0.0 && s.bevel_width < s.radius, us,
                 "bevel must be narrower than the radius", s.bevel_width);
  require_domain(s.bevel_angle >= 0.0 && bevel_height(s) < s.table_thickness, us,
                 "bevel must lie within the table", s.bevel_angle);
  require_domain(c.land_width >= 0.0 && c.land_width < 1.9 * s.radius, us,
                 "land must be narrower than the cutter", c.land_width);
  require_domain(c.chip_depth == 0.0 || (c.worn == 0.0 && c.land_width == 0.0 &&
                                         c.chip_depth > s.bevel_width && c.chip_depth < s.radius),
                 us, "a chip lies on an unworn face, deeper than the bevel", c.chip_depth);
  require_domain(
      c.land_half_angle >= 0.0 && c.land_half_angle < 0.9 * pi &&
          (c.land_half_angle == 0.0 || (c.land_width == 0.0 && c.worn == 0.0 && c.land_length > 0.0 &&
                                        bevel_height(s) + c.land_length <= s.table_thickness)),
      us, "a land round the rim must lie on an unworn table", c.land_half_angle);
  require_domain(c.land_width == 0.0 || (c.worn == 0.0 && c.land_length > 0.0 &&
                                         bevel_height(s) + c.land_length <= s.table_thickness),
                 us, "a land lies on an unworn table", c.land_length);
}

double flat_distance(const WornCutter& c, double z) {
  return c.shape.radius - c.worn + z * std::tan(c.back_rake);
}

double bevel_height(const geometry::CutterShape& s) {
  return s.bevel_width * std::tan(s.bevel_angle);
}

double unworn_radius(const geometry::CutterShape& s, double z) {
  const double height = bevel_height(s);
  return z < height ? s.radius - s.bevel_width * (1.0 - z / height) : s.radius;
}

bool on_flat(const WornCutter& c, double phi, double z) {
  const double cosine = std::cos(phi);
  return cosine > 0.0 && flat_distance(c, z) < unworn_radius(c.shape, z) * cosine;
}

bool on_land(const WornCutter& c, double phi, double z) {
  const double from = bevel_height(c.shape);
  if (!(z > from && z < from + c.land_length)) return false;
  if (c.land_half_angle > 0.0) return phi < c.land_half_angle;
  return c.land_width > 0.0 && std::sin(phi) < 0.5 * c.land_width / c.shape.radius && phi < 0.5 * pi;
}

bool under_chip(const WornCutter& c, double x, double z) {
  return c.chip_depth > 0.0 && x > c.shape.radius - c.chip_depth && z < std::max(bevel_height(c.shape), 1e-9);
}

double contact_half_angle(const WornCutter& c, double z) {
  if (c.land_half_angle > 0.0) return c.land_half_angle;
  if (c.land_width > 0.0) return std::asin(0.5 * c.land_width / c.shape.radius);
  if (c.chip_depth > 0.0) return std::acos(1.0 - c.chip_depth / c.shape.radius);
  const double share = flat_distance(c, z) / unworn_radius(c.shape, z);
  return share < 1.0 ? std::acos(share) : 0.0;
}

double surface_radius(const WornCutter& c, double phi, double z) {
  const double whole = unworn_radius(c.shape, z);
  return on_flat(c, phi, z) ? flat_distance(c, z) / std::cos(phi) : whole;
}

Flat flat_of(const WornCutter& c) {
  const geometry::CutterShape& s = c.shape;
  const double bevel = bevel_height(s), end = std::min(s.length, c.worn / std::tan(c.back_rake));
  Flat flat;
  if (c.land_half_angle > 0.0) {
    flat.width = 2.0 * s.radius * c.land_half_angle;  // along the rim
    flat.diamond_area = flat.width * c.land_length;
    return flat;
  }
  if (c.land_width > 0.0) {
    flat.diamond_area = 2.0 * s.radius * contact_half_angle(c, 0.0) * c.land_length;
    flat.width = c.land_width;
    return flat;
  }
  if (c.chip_depth > 0.0) {
    flat.diamond_area = geometry::segment_area(s.radius, c.chip_depth);
    flat.width = 2.0 * s.radius * std::sin(contact_half_angle(c, 0.0));
    return flat;
  }
  const auto half_width = [&](double z) {
    const double whole = unworn_radius(s, z), off = flat_distance(c, z);
    return off < whole ? std::sqrt((whole - off) * (whole + off)) : 0.0;
  };
  // The width ends like a square root where the flat does: depths crowd there.
  const auto area = [&](double from, double to) {
    constexpr int slices = 2000;
    double sum = 0.0;
    for (int i = 0; i < slices; ++i) {
      const double x = (i + 0.5) / slices;
      sum += half_width(to - (to - from) * x * x) * 2.0 * x;
    }
    return to > from ? 2.0 * sum * (to - from) / slices / std::cos(c.back_rake) : 0.0;
  };
  flat.diamond_area = area(0.0, std::min(bevel, end)) + area(bevel, std::min(s.table_thickness, end));
  flat.carbide_area = area(s.table_thickness, end);
  flat.width = 2.0 * std::max(half_width(0.0), half_width(bevel));
  return flat;
}

double worn_height_of_flat(const WornCutter& c, double area) {
  const auto excess = [&](double u) {
    WornCutter worn = c;
    worn.worn = u;
    return flat_of(worn).area() - area;
  };
  const double most = 0.95 * c.shape.radius;
  require_domain(area > 0.0 && excess(most) > 0.0, "worn_height_of_flat",
                 "no flat of this cutter is that large", area);
  std::uintmax_t iterations = 200;
  const auto bracket = boost::math::tools::bisect(excess, 0.0, most,
                                                  boost::math::tools::eps_tolerance<double>(40), iterations);
  return 0.5 * (bracket.first + bracket.second);
}

}  // namespace dullcast::heat_reference
