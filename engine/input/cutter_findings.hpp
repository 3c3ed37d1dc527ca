#pragma once

#include <optional>

#include "engine/base/dimension.hpp"
#include "engine/input/map_reader.hpp"

namespace dullcast::input {

/// How far readings of worn heights may be off: from what no calliper tells to more than any cutter wears.
inline constexpr base::Range reading_error_range{1e-6, 0.1, true, "from 0.001 to 100 mm"};

/// What an inspection says of one cutter, in a list that goes from the axis outward.
struct CutterFinding {
  std::optional<double> height;  // m, worn height as measured; nothing where it was not
  bool renewed = false;          // a new cutter
  bool lost = false;             // gone from its pocket
  bool table_gone = false;       // the diamond is gone from its carbide
  bool chipped = false;          // a piece has broken off its edge; the height is where the edge is now
  bool heat_checked = false;     // cracked by heat
  bool at_least = false;         // the height is the least that it may be
  /// A height that wear alone has made.
  bool tells_wear() const { return height && !chipped && !table_gone; }
};

/// Reads one such item: a height ("0.4 mm"), "new", "lost", "chipped" or "table gone" (either may go before a
/// height), or "not measured". Reports what is none of them, and reads it as not measured. `path` is where
/// the item stands. Words may be written with capitals. Of an inspection, which knows the cutter's radius
/// (m), more is read: "heat-checked" before a height or alone, and for any height "at least 2 mm", past a
/// calliper's reach, or "flat 6 mm", how long the flat is across the face (worn_height_of_flat). Heights past
/// the cutter's diameter are then refused.
CutterFinding read_finding(const YamlValue& item, const std::string& path, Reading& reading,
                           std::optional<double> cutter_radius = {});

/// Worn height (m, measured in the face) at which a round table of radius a has a flat of length w across
/// its face: the chord's height u = a - sqrt(a^2 - (w/2)^2), 0 <= w <= 2 a [hb]. Throws std::domain_error for
/// other lengths.
double worn_height_of_flat(double cutter_radius, double flat);

/// Worn heights (m) of all cutters from those measured: 0 of a new and of a lost cutter; one that was not
/// measured lies between the nearest ones inward and outward that tell wear, in proportion to the tips'
/// radii, or is as the only nearest one. Neighbours on a profile share the work, so their wear is alike
/// [asm]. `radius` (m) has one entry a finding, rising. Nothing where a cutter was not measured and none
/// tells wear.
std::optional<Eigen::ArrayXd> heights_of(const std::vector<CutterFinding>& findings,
                                         const Eigen::ArrayXd& radius);

}  // namespace dullcast::input
