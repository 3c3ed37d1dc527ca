#pragma once

#include <Eigen/Core>
#include <array>

#include "models/cutting/blade_rubbing.hpp"
#include "models/cutting/cutting_force.hpp"
#include "models/cutting/gauge.hpp"
#include "models/cutting/weight_balance.hpp"

namespace dullcast::cutting {

/// What decides the forces on one bit and stays the same along the hole.
struct BitMechanics {
  ForceDirections directions;
  BladeSurfaces surfaces;
  double blade_thickness = 0.0;  // m, along travel
  double blade_friction = 0.0;   // 1, of rubbing blades and pads
  double pad_seating = 0.0;      // m: pads that stand back a few times this leave the wall to the cutters
  Eigen::ArrayXd gauge_share;    // 1 for cutters that reach the gauge, else 0
  double unworn_reach = 0.0;     // m, outermost reach of the unworn cutters
};

/// The mechanics of a bit: directions of its cutting forces, surfaces of its blades, which cutters bear on
/// the wall.
BitMechanics bit_mechanics(const geometry::BitLayout& bit, const geometry::EdgeLaw& edge,
                           double blade_thickness, double blade_friction, double pad_seating);

/// What asks for force at one instant. Arrays have one entry per cutter.
struct ForceDemand {
  const Eigen::ArrayXd& worn_height;  // m
  const Eigen::ArrayXd&
      carbide_share;  // 1, pressure on carbide over that on diamond, at each flat's temperature
  RockResistance resistance;
  double weight = 0.0;             // N on the bit
  double most_depth_of_cut = 0.0;  // m/rev, feed limit; infinity for none
  double lost_steel = 0.0;         // m off the blades' faces
  double pad_wear = 0.0;           // m off the pads' faces: for press_on_wall
};

/// By how little a demand may differ from the one that forces were found for, for them to be taken again:
/// heat moves within tenths of a second where wear takes hours. 0: they are always found.
struct ForceTolerance {
  double worn_height = 0.0;  // m, of every cutter and of the blades' and pads' loss
  double share = 0.0;  // 1, of weight and drilling efficiency, and ten times that of what the pressure on
                       // carbide makes of contacts
};

/// What one solution leaves for the next to start from. It saves work and changes no answer but within a
/// ForceTolerance: the depth of cut to the last digits that balance_weight resolves, where blades begin to
/// bear while that is far off, and what the forces were found for. A new one is as good.
struct ForceMemory {
  Balance balance;
  RubbingLimit rubbing;
  Eigen::ArrayXd found_worn, found_carbide;  // of the demand that forces were last found for; the wear is
                                             // that of the outlines, and the steel that of the blades
  Eigen::ArrayXd by_carbide;  // 1, share by which each contact grows with the pressure on carbide: 0 where
                              // flats do not reach it
  double found_weight = 0.0, found_efficiency = 0.0, found_steel = 0.0, found_pads = 0.0;
  bool found = false;
  bool carbide_known = false;   // by_carbide is of this rock
  long tried_at = -1;           // the outlines' changes() when force was found at balance.tried
  bool outlined = false;        // the profile's outlines are of found_worn
  bool lifted = false;          // forces are those off bottom
  Eigen::ArrayXd rubbing_worn;  // m, worn heights at which `rubbing` was found
  double rubbing_steel = 0.0;   // m, and the blades' loss
  long rubbing_at = -1;         // and the outlines' changes() then
  bool rubbing_known = false;
  BalanceStorage storage;  // storage
  // The last two solutions in this rock, and what the bit had worn: where the next may be looked for.
  struct Solution {
    Eigen::ArrayXd worn;        // m
    double depth_of_cut = 0.0;  // m/rev; 0 for none
  };
  Solution last, before_last;
  // The last solutions in different rocks that were no limit: in the next rock within a tolerance a guess.
  struct Solved {
    double weight = 0.0, depth_of_cut = 0.0, slope = 0.0;  // N, m/rev, N/m
    double cutting = 0.0, contact = 0.0;                   // Pa, what the rock opposed to cut and contact
  };
  std::array<Solved, 8> solved;
  std::size_t last_solved = 0, next_solved = 0;  // where the last stands, and the next of another rock
  /// Forgets what belongs to a rock. The blades' limit is the outlines' own.
  void forget() {
    balance = {}, found = lifted = carbide_known = false;
    last.depth_of_cut = before_last.depth_of_cut = 0.0;
  }
};

/// Forces on one bit at one instant. Arrays have one entry per cutter and keep their storage.
struct BitForces {
  Balance balance;
  RubbingLimit rubbing;
  CutterLoads loads;
  Eigen::ArrayXd whole_flat;   // m2, integral of the flat's weight along its whole edge
  double outer_radius = 0.0;   // m, the worn cutters' outermost reach
  Eigen::ArrayXd stand_off;    // m, of each cutter's outermost reach from that, which is the wall
  double bottom_torque = 0.0;  // N m, cutters and blades on the bottom
  Eigen::ArrayXd tangential_force, normal_force, radial_force;  // N
  LateralLoad lateral;                                          // what the forces across the axis sum to
  double pad_force = 0.0;                                       // N of it on the pads
  Eigen::ArrayXd side_force;                                    // N of it on each gauge cutter
  Eigen::ArrayXd contact_area, contact_width;                   // m2, m, where cut and wall bear on a cutter
  double wall_torque = 0.0;                                     // N m, pads and gauge cutters on the wall
  void resize(Eigen::Index cutters);
  double torque() const { return bottom_torque + wall_torque; }
};

/// How the bit sits on its bottom: the depth of cut at which cutters and blades carry the weight
/// (weight_balance.hpp) and each cutter's loads there; a bit sinks by its radius a turn at most, into ground
/// that carries nothing [asm]. No weight is off bottom: nothing is cut and nothing
/// bears. `profile` is worked on; its outlines are those of the demand afterwards, or within the tolerance of
/// them, unless off bottom.
/// Within `tolerance` of the demand that `forces` were last found for, in the same rock at the same rotary
/// speed and feed limit (forget() when these change), they and `profile` stay as they are. Returns whether
/// forces are other ones now, so that what follows from them is to be taken again. Allocates nothing
/// but once. Throws what balance_weight and WornProfile throw.
bool sit_on_bottom(const BitMechanics& bit, const ForceDemand& demand, geometry::WornProfile& profile,
                   ForceMemory& memory, BitForces& forces, const ForceTolerance& tolerance = {});

/// What pushes the bit sideways and who carries it:
/// - each cutter: F_t = eps A/e + mu F_c, F_n = zeta eps A/e + F_c, eps at its speed and depth of cut
///   (CutterLoads); what does not push along the axis pushes across it, inward on the shoulder, outward in
///   the cone, and against the side to which a face with side rake looks (ForceDirections);
/// - their vector sum (lateral_imbalance) rests on the wall: on the pads, exp(-clearance/pad_seating) of it
///   [asm]; what they leave on the gauge cutters that face it, by the cosine of the angle between and
///   exp(-stand-off/pad_seating) of each, as far as one of them stands at the wall at all and faces it: of
///   what is s = cos(angle)/0.17 of one, s (2 - s) where it looks more than 80 degrees past it, for there the
///   bit rolls off it [asm];
/// - what neither reaches stays on the bottom: the bit gives way until the cutters on that side hold it. That
///   these then cut deeper, and the hole wider, is not followed [asm].
/// Pressed rock yields until its strength carries: a contact is no smaller than side force over sigma_c at
/// its speed, and no narrower than a square of that.
/// `pad_wear` m off the pads' faces; cutters marked `lost` carry nothing. Needs what sit_on_bottom has found.
void press_on_wall(const BitMechanics& bit, const geometry::BitLayout& layout, const RockResistance& rock,
                   double pad_wear, const Eigen::Array<bool, Eigen::Dynamic, 1>& lost, BitForces& forces);

}  // namespace dullcast::cutting
