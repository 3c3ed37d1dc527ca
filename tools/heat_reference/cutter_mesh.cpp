#include "tools/heat_reference/cutter_mesh.hpp"

#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/common/domain.hpp"

namespace dullcast::heat_reference {
namespace {

using Eigen::Vector3d;

/// Growth of neighbouring cells away from the flat: by e every 1.8 times as many cells as lie across it, so
/// that refining refines everywhere.
double growth_for(int cells) {
  return std::exp(1.8 / cells);
}

void halve(std::vector<double>& places) {
  std::vector<double> halved;
  for (std::size_t i = 0; i + 1 < places.size(); ++i) {
    halved.push_back(places[i]);
    halved.push_back(0.5 * (places[i] + places[i + 1]));
  }
  if (!places.empty()) halved.push_back(places.back());
  places = halved;
}

/// Where the pocket begins, rad; a line of the grid unless the flat itself reaches it.
double pocket_edge(const WornCutter& c, double widest) {
  const double edge = pi * c.exposed_share;
  return edge > 1.2 * widest && edge < 0.98 * pi ? edge : pi;
}

GridLines graded_lines(const WornCutter& c, int cells) {
  const geometry::CutterShape& s = c.shape;
  const double bevel = bevel_height(s), growth = growth_for(cells);
  const bool land = c.land_width > 0.0 || c.land_half_angle > 0.0;
  const double flat_end = land                 ? bevel + c.land_length
                          : c.chip_depth > 0.0 ? std::min(bevel + c.chip_depth, s.table_thickness)
                                               : std::min(c.worn / std::tan(c.back_rake), s.length);
  // The flat's widest place is the face's rim or, under a bevel, the bevel's end.
  const double widest = std::max(contact_half_angle(c, 0.0), contact_half_angle(c, bevel));
  const double half_width = s.radius * std::max(std::sin(std::min(widest, 0.5 * pi)), 0.02);
  const double length =
      std::max(std::min(flat_end, s.table_thickness) - (land ? bevel : 0.0), 0.02 * s.table_thickness);
  const double fine = std::min(half_width, length) / cells;
  GridLines lines;

  std::vector<double> inward = graded(s.radius, std::min(fine, s.radius / (2.0 * cells)), growth);
  for (auto depth = inward.rbegin(); depth != inward.rend(); ++depth)
    lines.outward.push_back(1.0 - *depth / s.radius);

  const auto append = [&](double from, double to, double first, bool from_far_end) {
    const std::vector<double> steps = graded(to - from, first, growth);
    const std::size_t n = steps.size();
    for (std::size_t i = 1; i < n; ++i)
      lines.axial.push_back(from_far_end ? to - steps[n - 1 - i] : from + steps[i]);
  };
  lines.axial.push_back(0.0);
  double from = 0.0;
  const auto section = [&](double to, double first) {
    if (to - from > 1e-9 * s.length) {
      append(from, to, first, false);
      from = to;
    }
  };
  if (bevel > 0.0) section(bevel, bevel / std::max(1, cells / 2));
  if (flat_end < s.table_thickness) section(flat_end, length / cells);
  section(s.table_thickness, std::min(s.table_thickness, length) / cells);
  // Past the bond, cells as fine as before it, growing.
  section(s.length, std::min(s.table_thickness / cells, 0.25 * (s.length - s.table_thickness)));

  lines.flat_angles = static_cast<std::size_t>(cells);
  lines.least_angle = std::max(widest, 0.02);
  lines.pocket_edge = pocket_edge(c, lines.least_angle);
  const double edge = lines.pocket_edge, cell = lines.least_angle / cells;
  lines.bare = graded(1.0, cell / (edge - lines.least_angle), growth);
  if (edge < pi) {
    const std::size_t n = lines.bare.size();
    lines.pocket = graded(
        1.0, (lines.bare[n - 1] - lines.bare[n - 2]) * (edge - lines.least_angle) / (pi - edge), growth);
  }
  return lines;
}

/// Azimuths of the angular lines at depth z.
void angles_at(const WornCutter& c, const GridLines& lines, double z, std::vector<double>& angles) {
  const double rim = std::max(contact_half_angle(c, z), 0.35 * lines.least_angle);
  angles.clear();
  for (std::size_t j = 0; j < lines.flat_angles; ++j)
    angles.push_back(rim * static_cast<double>(j) / static_cast<double>(lines.flat_angles));
  const double edge = lines.pocket_edge;
  for (const double share : lines.bare) angles.push_back(rim + share * (edge - rim));
  for (std::size_t j = 1; j < lines.pocket.size(); ++j)
    angles.push_back(edge + lines.pocket[j] * (pi - edge));
}

/// Adds quadrature points of a patch with the given corners (in the order of bilinear shape functions), cut
/// into `pieces` by `pieces` with 2 x 2 Gauss points each; `tell` says what lies outside at (s, t) in 0..1.
void add_patch(CutterMesh& mesh, const std::array<int, 4>& corners, Material material, int pieces,
               const auto& tell) {
  const double gauss[2] = {0.5 - 0.5 / std::sqrt(3.0), 0.5 + 0.5 / std::sqrt(3.0)};
  const auto point = [&](int corner) -> const Vector3d& {
    return mesh.points[static_cast<std::size_t>(corners[static_cast<std::size_t>(corner)])];
  };
  for (int p = 0; p < 2 * pieces; ++p) {
    for (int q = 0; q < 2 * pieces; ++q) {
      const int piece_s = p / 2, piece_t = q / 2;
      const double s = (piece_s + gauss[p % 2]) / pieces, t = (piece_t + gauss[q % 2]) / pieces;
      const Vector3d along_s = (1.0 - t) * (point(1) - point(0)) + t * (point(3) - point(2));
      const Vector3d along_t = (1.0 - s) * (point(2) - point(0)) + s * (point(3) - point(1));
      SurfacePoint here;
      here.nodes = corners;
      here.shape = {(1.0 - s) * (1.0 - t), s * (1.0 - t), (1.0 - s) * t, s * t};
      here.area = along_s.cross(along_t).norm() / (4.0 * pieces * pieces);
      here.outside = tell(s, t);
      here.material = material;
      here.place = here.shape[0] * point(0) + here.shape[1] * point(1) + here.shape[2] * point(2) +
                   here.shape[3] * point(3);
      mesh.surface.push_back(here);
    }
  }
}

}  // namespace

std::vector<double> graded(double length, double first, double growth_limit) {
  require_domain(length > 0.0 && first > 0.0 && growth_limit >= 1.0, "graded", "length must be above 0",
                 length);
  int n = 1;
  double sum = std::min(first, length), step = first;
  while (sum < length) {
    step *= growth_limit;
    sum += step;
    ++n;
  }
  // With n cells the growth that fills the length exactly is at most the limit: find it by bisection.
  const auto filled = [&](double ratio) {
    double total = 0.0, cell = first;
    for (int i = 0; i < n; ++i, cell *= ratio) total += cell;
    return total;
  };
  double low = 0.0, high = growth_limit;
  for (int i = 0; i < 100; ++i) {
    const double middle = 0.5 * (low + high);
    (filled(middle) < length ? low : high) = middle;
  }
  std::vector<double> places{0.0};
  double cell = first;
  const double scale = length / filled(high);
  for (int i = 0; i < n; ++i, cell *= high) places.push_back(places.back() + cell * scale);
  places.back() = length;
  return places;
}

GridLines cutter_lines(const WornCutter& cutter, Fineness fineness) {
  require_cutter(cutter);
  require_domain(fineness.cells >= 2, "cutter_lines", "at least two cells across the flat are needed",
                 fineness.cells);
  GridLines lines = graded_lines(cutter, fineness.cells);
  for (int i = 0; i < fineness.halvings; ++i) {
    for (std::vector<double>* places : {&lines.outward, &lines.axial, &lines.bare, &lines.pocket})
      halve(*places);
    lines.flat_angles *= 2;
  }
  return lines;
}

CutterMesh mesh_cutter(const WornCutter& cutter, Fineness fineness) {
  return mesh_on(cutter, cutter_lines(cutter, fineness));
}

CutterMesh mesh_on(const WornCutter& cutter, const GridLines& lines) {
  require_cutter(cutter);
  const geometry::CutterShape& s = cutter.shape;
  const std::size_t radial = lines.outward.size() - 1;
  const std::size_t angular =
      lines.flat_angles + lines.bare.size() - 1 + (lines.pocket.empty() ? 0 : lines.pocket.size() - 1);
  const std::size_t axial = lines.axial.size() - 1;

  CutterMesh mesh;
  std::vector<double> angles;
  std::vector<std::vector<double>> angle_of(axial + 1);
  const std::size_t per_level = 1 + radial * (angular + 1);
  for (std::size_t k = 0; k <= axial; ++k) {
    const double z = lines.axial[k];
    angles_at(cutter, lines, z, angles);
    angle_of[k] = angles;
    mesh.points.emplace_back(0.0, 0.0, z);
    for (std::size_t i = 1; i <= radial; ++i) {
      for (const double phi : angles) {
        const double r = lines.outward[i] * surface_radius(cutter, phi, z);
        mesh.points.emplace_back(r * std::cos(phi), r * std::sin(phi), z);
      }
    }
  }
  const auto at = [&](std::size_t i, std::size_t j, std::size_t k) {
    return static_cast<int>(k * per_level + (i == 0 ? 0 : 1 + (i - 1) * (angular + 1) + j));
  };
  for (std::size_t k = 0; k < axial; ++k) {
    const double middle = 0.5 * (lines.axial[k] + lines.axial[k + 1]);
    const Material material = middle < s.table_thickness ? Material::diamond : Material::carbide;
    for (std::size_t j = 0; j < angular; ++j) {
      for (std::size_t i = 0; i < radial; ++i) {
        mesh.bricks.push_back({at(i, j, k), at(i + 1, j, k), at(i, j + 1, k), at(i + 1, j + 1, k),
                               at(i, j, k + 1), at(i + 1, j, k + 1), at(i, j + 1, k + 1),
                               at(i + 1, j + 1, k + 1)});
        mesh.material.push_back(material);
      }
      // The side: over (around, along).
      const auto side = [&](double around, double along) {
        const double z = lines.axial[k] + along * (lines.axial[k + 1] - lines.axial[k]);
        const auto phi_at = [&](std::size_t level) {
          return angle_of[level][j] + around * (angle_of[level][j + 1] - angle_of[level][j]);
        };
        const double phi = (1.0 - along) * phi_at(k) + along * phi_at(k + 1);
        if (on_flat(cutter, phi, z) || on_land(cutter, phi, z)) return Outside::contact;
        const bool bare = phi < pi * cutter.exposed_share || z < bevel_height(s);
        if (!bare) return Outside::pocket;
        return material == Material::diamond ? Outside::exposed_table : Outside::exposed_carbide;
      };
      add_patch(mesh,
                {at(radial, j, k), at(radial, j + 1, k), at(radial, j, k + 1), at(radial, j + 1, k + 1)},
                material, 3, side);
    }
  }
  for (std::size_t j = 0; j < angular; ++j) {
    for (std::size_t i = 0; i < radial; ++i) {
      const auto end = [&](std::size_t k) {
        return std::array<int, 4>{at(i, j, k), at(i + 1, j, k), at(i, j + 1, k), at(i + 1, j + 1, k)};
      };
      add_patch(mesh, end(0), Material::diamond, 1, [](double, double) { return Outside::exposed_table; });
      add_patch(mesh, end(axial), Material::carbide, 1, [](double, double) { return Outside::back; });
    }
  }
  for (SurfacePoint& point : mesh.surface)
    if (under_chip(cutter, point.place.x(), point.place.z())) point.outside = Outside::contact;
  return mesh;
}

}  // namespace dullcast::heat_reference
