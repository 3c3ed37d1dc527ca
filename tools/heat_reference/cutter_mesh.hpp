#pragma once

#include <Eigen/Core>
#include <array>
#include <vector>

#include "tools/heat_reference/worn_cutter.hpp"

namespace dullcast::heat_reference {

enum class Material { diamond, carbide };

/// What lies outside a piece of surface.
enum class Outside {
  contact,          // wear flat, land or chip: against rock
  exposed_table,    // face, bevel and side of the table outside the pocket, in the fluid
  exposed_carbide,  // side of the carbide outside the pocket, in the fluid
  pocket,           // side in the pocket
  back              // back face, in the pocket too or not
};

/// One point of surface quadrature: the four corners of its patch with their shape functions, its area, what
/// lies outside and where it is.
struct SurfacePoint {
  std::array<int, 4> nodes;
  std::array<double, 4> shape;
  double area = 0.0;  // m2
  Outside outside = Outside::contact;
  Material material = Material::diamond;
  Eigen::Vector3d place;  // m
};

/// Bricks of eight corners that fill half a cutter (y >= 0), graded towards the flat and the bond. Corners
/// are numbered with x' fastest, as the shape functions of conduction.cpp expect.
struct CutterMesh {
  std::vector<Eigen::Vector3d> points;     // m
  std::vector<std::array<int, 8>> bricks;  // collapsed onto the axis where they touch it
  std::vector<Material> material;          // of each brick
  std::vector<SurfacePoint> surface;       // of all outside but the plane of symmetry
};

/// How many cells lie across the flat's half width, along it and under it; everything else follows. Then
/// every cell is halved each way so many times: eight times the bricks for a clean order of convergence.
struct Fineness {
  int cells = 6;
  int halvings = 0;
};

/// The lines of a grid in polar coordinates about the axis. Every radius is scaled to the cutter's surface
/// and the angular lines follow the flat's rim.
struct GridLines {
  std::vector<double> outward;  // 0 at the axis .. 1 at the surface
  std::vector<double> axial;    // m, 0 at the face .. length
  std::size_t flat_angles = 0;  // angular cells across the flat's half width
  double least_angle = 0.0;     // rad, of the flat's half width where it is widest, or what stands for it
  double pocket_edge = 0.0;     // rad, where the angles `bare` end and `pocket` begin; pi for no pocket
  std::vector<double> bare;     // 0 .. 1 of the angle from the flat's rim to the pocket's edge
  std::vector<double> pocket;   // 0 .. 1 of the angle from there to pi; empty for none
};

/// Lines graded towards the flat and the bond, through the bevel's end, the flat's end and the pocket's edge.
/// Throws std::domain_error for an impossible cutter or fewer than two cells.
GridLines cutter_lines(const WornCutter& cutter, Fineness fineness);

/// Half the cutter on a grid. Throws std::domain_error for an impossible cutter.
CutterMesh mesh_on(const WornCutter& cutter, const GridLines& lines);
/// mesh_on(cutter, cutter_lines(cutter, fineness)).
CutterMesh mesh_cutter(const WornCutter& cutter, Fineness fineness);

/// Steps from 0 to `length`, the first near `first`, growing evenly by at most `growth` each; returned as
/// places, both ends included.
std::vector<double> graded(double length, double first, double growth);

}  // namespace dullcast::heat_reference
