#pragma once

#include "models/hydraulics/hole_cleaning.hpp"

namespace dullcast::hydraulics {

/// What decides how clean one bit keeps its bottom and stays the same along the hole.
struct CleaningLaw {
  Slots slots;
  double packed_share = 1.0;     // 1, of the drilling efficiency that is left when slots are packed
  double cuttings_spread = 1.0;  // 1, exponent of the Rosin-Rammler law
  double bit_diameter = 0.0;     // m
  double hole_area = 0.0;        // m2
  int blades = 1;
};

/// Rock that lies in the slots and over the bit.
struct Solids {
  double fraction = 0.0;  // 1, of the slots' volume
  double plug = 0.0;      // 1, multiples of what the packed slots hold
};

/// What flow and cuttings do at the bottom at one instant.
struct BottomFlow {
  SlotFlow slot;
  Plug plug;
  double cuttings_size = 0.0;  // m
  double lifted_share = 1.0;   // 1, of the cuttings, by the uphole flow
};

/// Factor on the drilling efficiency: what packed slots (packed_efficiency) and a plug over the bit
/// (plugged_efficiency) leave of it.
double regrinding_efficiency(const CleaningLaw& law, double packing, double plug);

/// Flow past the bit when the pump sends Q (m3/s) and a depth of cut d (m/rev) makes cuttings of a rock's
/// density (kg/m3): their size at d shared by the blades, what of them is lifted (cuttings.hpp), slots and
/// plug (hole_cleaning.hpp).
/// `annulus_velocity` (m/s): that of slot_flow at the same flow and solids.
BottomFlow bottom_flow(const CleaningLaw& law, const materials::Fluid& fluid, double Q, double rock_density,
                       const Solids& solids, double annulus_velocity, double d);

/// How fast solids gather, 1/s, and how fast each dies away by itself: -d rate/d itself, 1/s.
struct SolidsRates {
  Solids rate;
  Solids decay;
};

/// The slots gain what is cut (rate of penetration, m/s, times the hole's area) and what a plug holds back,
/// and lose what the flow takes and what the bit pushes up; the plug gains that and is flushed away:
///   dc/dt = solids_rate + blocks (out - overflow),  dp/dt = overflow/packed_fraction - flushed.
/// Slots that choke under a pressure limit let less out the fuller they are: their decay counts as 0.
/// A plug has no more room than the hole: from one bit diameter below the collar on, `hole_depth` m up, ever
/// more of what is pushed up falls out at the top.
SolidsRates solids_rates(const CleaningLaw& law, const BottomFlow& flow, const Solids& solids,
                         double rate_of_penetration, double hole_depth);

}  // namespace dullcast::hydraulics
