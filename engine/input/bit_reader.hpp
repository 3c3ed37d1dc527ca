#pragma once

#include "engine/input/library.hpp"

namespace dullcast::input {

/// Reads the `bit:` section: its layout laid out and checked (every cutter within the bit's diameter, no
/// radius left uncut), its grade, lot and body from the library, its build and its starting state. `folder`
/// is where the scenario's own relative paths start. Reports every error; the record is complete only when
/// there is none.
scenario::BitRecord read_bit(MapReader& scenario, const Library& library, const std::string& folder);

/// The trade's size code, "1613": diameter and length in whole millimetres, nominal [cp]. Nothing when the
/// text is no such code.
struct CutterSize {
  double diameter = 0.0, length = 0.0;  // m
};
std::optional<CutterSize> cutter_size(std::string_view code);

/// Reads `cutter:`, the shape of every cutter of the bit. A usual cutter's table (2 mm) and bevel (0.4 mm, 45
/// deg) [cp] stand in for what is not given.
geometry::CutterShape read_cutter_shape(MapReader cutter, double edge_radius);

/// Reads `cutters:`, an explicit list, into the layout (shape, bit_radius set before). Azimuths come out in
/// [0, 2 pi); profile angles that are not given come from the neighbours along the profile; blades that are
/// not given come from gaps in azimuth of more than 15 deg.
void read_cutter_list(MapReader& bit, geometry::BitLayout& layout);

/// Reads a bit's ports, slots, blades and gauge pads. What is not given scales with the bit radius R: blades
/// 0.30 R high and 0.22 R thick, pads 0.5 R long and as wide as a blade is thick [asm]; no ports (not known)
/// and no slot share (the models' number).
scenario::BitBuild read_build(MapReader& bit, const geometry::BitLayout& layout);

/// Reads the state a bit starts in: `continues:`, or what is worn, chipped, lost and eroded already. The
/// arrays have one entry per cutter of the record's layout, 0 where nothing is said.
void read_start(MapReader& bit, scenario::BitRecord& record, const std::string& folder);

/// `base` with the entries of `over` put over it: maps are merged key by key, everything else is replaced.
YamlValue laid_over(const YamlValue& base, const YamlValue& over);

/// An absolute path for one written relative to a folder.
std::string absolute_path(const std::string& path, const std::string& folder);

}  // namespace dullcast::input
