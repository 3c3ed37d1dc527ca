#pragma once

#include "models/geometry/cutter.hpp"

namespace dullcast::wear {

/// Share of a wear flat's diamond from which cobalt was leached, 1 .. 0, at worn height u (m, in the face)
/// and back rake theta (rad). Leaching goes leach_depth z_L deep from the table's face and, where the cutter
/// was leached round its edge, leach_side_depth z_s deep from its side. The diamond that keeps its cobalt is
/// a cylinder of radius a - z_s behind z_L, cut by the same plane:
///   1 - [S'(u - z_s - z_L tan theta) - S'(u - z_s - t tan theta)]/[S(u) - S(u - t tan theta)],
/// S the segment's area (wear_flat.hpp) of the cutter, S' of that inner cylinder. exact, ours. So a flat is
/// leached throughout while u <= z_L tan theta, the first tenths, and to about z_L/t once it spans the table.
/// Without leaching 0. u counts as at least 0 and at most 2 a.
double leached_share(const geometry::CutterShape& shape, double back_rake, double worn_height);

/// Mean depth, m, at which cobalt lies under the leached part of a flat: z_L/(2 sin theta) along the flat's
/// normal, which leaves the face under that angle, or what is left of z_s - u, whichever is deeper [asm].
double depth_under_leached(const geometry::CutterShape& shape, double back_rake, double worn_height);

}  // namespace dullcast::wear
