#pragma once

#include "models/geometry/cutter.hpp"

namespace dullcast::heat_reference {

/// A cutter as it wears: the cylinder of `shape`, its bevel, and the flat that a plane parallel to the travel
/// cuts off. Axis along z from the face (0) to the back (length); the flat lies towards +x and the plane
/// y = 0 halves the cutter.
struct WornCutter {
  geometry::CutterShape shape;
  double back_rake = 0.0;      // rad, theta, in (0, pi/2)
  double worn = 0.0;           // m, u, in [0, radius)
  double exposed_share = 0.5;  // 1, of the side, about +x, outside the pocket
  // An unworn cutter bears on a land: a strip of its side along the rim, from the bevel's end backwards.
  double land_width = 0.0;   // m, chord across the travel; 0 for none
  double land_length = 0.0;  // m, along the axis, within the table
  // Or a land that wraps round the rim: half the angle that it spans, rad; land_width is then 0.
  double land_half_angle = 0.0;  // rad, in [0, 0.9 pi); 0 for none
  // Or its face and bevel under the chip are what is heated: a segment of the disc this deep from the rim.
  double chip_depth = 0.0;  // m; 0 for none
};

/// Throws std::domain_error, naming the quantity, for a cutter that is not one: see the ranges above.
void require_cutter(const WornCutter& cutter);

/// Distance of the flat's plane from the axis at depth z under the face, m: a - u + z tan(theta).
double flat_distance(const WornCutter& cutter, double z);

/// Radius of the unworn cutter at z, m: the bevel's cone, w_b wide on the face, then the cylinder.
double unworn_radius(const geometry::CutterShape& shape, double z);

/// Height of the bevel along the axis, m: w_b tan(chi).
double bevel_height(const geometry::CutterShape& shape);

/// Whether the flat bounds the cutter at z in the direction phi (rad) from +x.
bool on_flat(const WornCutter& cutter, double phi, double z);

/// Whether the land covers the side at z in the direction phi.
bool on_land(const WornCutter& cutter, double phi, double z);

/// Whether the chip covers the face or the bevel at x (m from the axis) and z.
bool under_chip(const WornCutter& cutter, double x, double z);

/// Half the angle, rad from +x, that flat, land or chip spans at z; 0 where there is neither.
double contact_half_angle(const WornCutter& cutter, double z);

/// Distance from the axis to the cutter's surface at z in the direction phi, m: the nearer of cylinder (or
/// bevel) and flat. Above 0 everywhere, since u < a: the cutter is star-shaped about its axis.
double surface_radius(const WornCutter& cutter, double phi, double z);

/// The flat as it lies on the cutter, bevel taken off, or else its land, or the chip's segment. On a bevelled
/// cutter it is smaller than models/geometry/wear_flat.hpp says of a plain cylinder.
struct Flat {
  double diamond_area = 0.0;  // m2
  double carbide_area = 0.0;  // m2
  double width = 0.0;         // m, across the travel where it is widest
  double area() const { return diamond_area + carbide_area; }
};
/// By quadrature over depth, within 1e-6 of the areas.
Flat flat_of(const WornCutter& cutter);

/// Worn height whose whole flat, diamond and carbide, has the area asked for (m2), by bisection. Throws
/// std::domain_error when no flat of this cutter, up to a worn height of 0.95 a, is that large.
double worn_height_of_flat(const WornCutter& cutter, double area);

}  // namespace dullcast::heat_reference
