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

/// A chamfer as drawings state it, "0.4 mm x 45 deg" ("none" is none): how wide it is on the face, by its
/// angle to the face; at 45 deg it takes as much off the side (ISO 129-1). Reports what is no chamfer.
struct Chamfer {
  double width = 0.0, angle = 0.0;  // m, rad
};
std::optional<Chamfer> read_chamfer(MapReader& cutter);

/// Reads the shape of one kind of cutter. A usual cutter's table (2 mm) and bevel (0.4 mm, 45 deg) [cp] stand
/// in for what is not given.
geometry::CutterShape read_cutter_shape(MapReader cutter, double edge_radius);

/// What the cutters of `cutter:` are called where a kind is named.
inline constexpr const char* usual_kind = "usual";

/// How far a cutter may stand out of its blade: none stands out more than its own diameter, and one that does
/// not stand out by a grain's width does not cut.
inline constexpr base::Range exposure_range{1e-5, 0.1, true, "from 0.01 to 100 mm"};

/// Reads `cutter:`, `grade:` and `cutter_kinds:` into the record's kinds and its layout's shapes, the usual
/// kind first. What another kind does not say is as in `cutter:`.
void read_cutter_kinds(MapReader& bit, const Library& library, scenario::BitRecord& record);

/// laid_over of a cutter's keys: a size code takes the place of dimensions, a chamfer that of a bevel, and
/// the other way round.
YamlValue cutter_laid_over(const YamlValue& base, const YamlValue& over);

/// The kind named under `kind`, the usual one when nothing is; reports a name that the bit does not have.
int read_kind(MapReader& map, const std::vector<scenario::CutterKind>& kinds);

/// Reads `fitted:`, cutters by number that are of another kind than where they sit.
std::vector<geometry::FittedCutter> read_fitted(MapReader& bit,
                                                const std::vector<scenario::CutterKind>& kinds);
/// Reports fitted cutters that a bit of so many does not have.
void check_fitted(MapReader& bit, const std::vector<geometry::FittedCutter>& fitted, Eigen::Index cutters);

/// Reads `blades.kinds:`, zones of another kind from the axis outward.
std::vector<geometry::KindZone> read_kind_zones(MapReader& blades,
                                                const std::vector<scenario::CutterKind>& kinds);

/// Reads `blades.wing_twist:`, an angle or an arc along the gauge, one for all wings or one a wing; empty
/// when absent.
std::vector<geometry::WingTwist> read_wing_twist(MapReader& blades, std::size_t wings);

/// The number of a cutter, counted from 1; 0 when the value is none.
int cutter_number(const YamlValue& value);

/// Reads `cutters:`, an explicit list, into the record's layout (kinds, bit_radius set before). Azimuths come
/// out in [0, 2 pi); profile angles that are not given come from the neighbours along the profile; blades
/// that are not given come from gaps in azimuth of more than 15 deg.
void read_cutter_list(MapReader& bit, scenario::BitRecord& record);

/// Reads a bit's ports, slots, blades and gauge pads. What is not given scales with the bit radius R: blades
/// 0.30 R high and 0.22 R thick, pads 0.5 R long and as wide as a blade is thick [asm]; no ports (not known)
/// and no slot share (the models' number).
scenario::BitBuild read_build(MapReader& bit, const geometry::BitLayout& layout);
/// Whether fluid gets out between the blades: a share of 0 is the models' number.
bool has_slots(double junk_slot_share);

/// Reads the state a bit starts in: what is worn, chipped, lost and eroded already, or `continues:` with what
/// was found and `rebuilt:` since. The starting arrays have one entry per cutter of the record's layout, 0
/// where nothing is said, and 0 beside `continues:`, where the earlier result is still to be read. A list of
/// worn heights may be an inspection's: see cutter_findings.
void read_start(MapReader& bit, scenario::BitRecord& record, const std::string& folder);

/// `base` with the entries of `over` put over it: maps are merged key by key, everything else is replaced.
YamlValue laid_over(const YamlValue& base, const YamlValue& over);

/// A path written relative to a folder, seen from where the program runs: as the folder was given, so that
/// messages name files as people do.
std::string path_beside(const std::string& path, const std::string& folder);

}  // namespace dullcast::input
