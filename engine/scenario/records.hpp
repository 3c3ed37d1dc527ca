#pragma once

#include <string>

#include "engine/scenario/quantity.hpp"

/// What the library holds of rocks, cutter grades, lots, bodies and fluids: numbers with their spread, in SI.
namespace dullcast::scenario {

struct RockRecord {
  std::string name;
  std::string note;                 // what a driller should know, may be empty
  bool hard_on_cutters = false;     // granite, quartzite, gravel: warns
  Quantity unconfined_strength;     // Pa
  Quantity friction_angle;          // rad
  Quantity youngs_modulus;          // Pa
  Quantity poissons_ratio;          // 1
  Quantity cerchar_abrasivity;      // 1
  Quantity conductivity;            // W/(m K)
  Quantity density;                 // kg/m3
  Quantity heat_capacity;           // J/(kg K)
  Quantity contact_strength_ratio;  // 1
  // What hides in it; a rock without inclusions leaves them at 0.
  Quantity inclusion_share;       // 1, volume share of stones, pebbles, chert in it
  Quantity inclusion_size;        // m
  Quantity inclusion_strength;    // Pa
  Quantity inclusion_abrasivity;  // 1, CAI of the stones themselves
  Quantity stickiness;            // 1, 0..1: how readily its cuttings ball a bit
};

/// A cutter grade: its diamond and carbide.
struct GradeRecord {
  std::string name;
  Quantity wear_resistance;        // 1, relative to the library's reference grade
  Quantity table_conductivity;     // W/(m K)
  Quantity table_density;          // kg/m3 (its heat capacity follows temperature inside the models)
  Quantity carbide_conductivity;   // W/(m K)
  Quantity carbide_density;        // kg/m3
  Quantity carbide_heat_capacity;  // J/(kg K)
  Quantity edge_strength;          // Pa, characteristic strength of a sound cold edge under an impact
  Quantity bond_strength;          // Pa, median shear strength of the bond between diamond and carbide
};

/// How good one delivery of cutters and its brazing are, against the grade: 1 is sound.
struct LotRecord {
  std::string name;
  Quantity edge_share;       // 1, of the grade's edge strength
  Quantity bond_share;       // 1, of the grade's bond strength
  Quantity braze_share;      // 1, of the models' braze strength
  Quantity strength_spread;  // 1, standard deviation of ln(strength) from cutter to cutter
};

/// The body the cutters are brazed into.
struct BodyRecord {
  std::string name;             // "steel", "matrix"
  Quantity conductivity;        // W/(m K)
  Quantity density;             // kg/m3
  Quantity heat_capacity;       // J/(kg K)
  Quantity volume_share;        // 1: body volume over bit-radius cubed, so its heat mass scales with size
  Quantity erosion_resistance;  // 1, relative to hardened steel
  Quantity rubbing_resistance;  // 1, likewise, against rock that rubs blades and pads
  Quantity strength;            // Pa, in bending at a blade's root, median
  Quantity strength_spread;     // 1, standard deviation of ln(strength)
};

enum class FluidKind { liquid, gas };

struct FluidRecord {
  std::string name;
  FluidKind kind = FluidKind::liquid;
  Quantity density;        // kg/m3 (a gas: at one atmosphere and 15 C)
  Quantity viscosity;      // Pa s
  Quantity conductivity;   // W/(m K)
  Quantity heat_capacity;  // J/(kg K)
};

}  // namespace dullcast::scenario
