#pragma once

#include <Eigen/Core>

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
  double suspending_transport = 0.0;  // 1, transport ratio from which cuttings stay in suspension
  double burying_depth = 0.0;         // m of settled cuttings that bury the cutters whole
  double throwing_radius = 0.0;       // m, see throwing_radius()
};

/// Speed at which a bit's faces throw their cuttings outward, over its angular speed, m: chips leave over a
/// face with side rake beta at beta to its edge's normal (geometry::cutting_direction), chip_speed_share of
/// the cutting speed fast, so the mean over cutters is chip_speed_share sum r_i^2 sin(beta_i)/sum r_i, each
/// weighed by its way [asm]. Below 0 inward. Empty arrays give 0.
double throwing_radius(const Eigen::ArrayXd& radius, const Eigen::ArrayXd& side_rake,
                       double chip_speed_share);

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
  double renewal = 0.0;        // 1/s, how often the flow fills the slots anew
};

/// The bed round the cutters at one instant.
struct Bed {
  double settled = 0.0;  // 1, of what the slots hold, on the bottom
  double buried = 0.0;   // 1, of the cutters' surfaces: by what has settled, or by packed slots
};
/// What has settled (settling.hpp) of the solids fraction, at the slip velocity of the bed's grains
/// (bed_grain of the slots) in the fluid: cuttings that are ground again, whatever they were when cut. Packed
/// slots bury the cutters too: of what settled cuttings leave bare, the share of packing. rock_density kg/m3.
/// `slot`: slot_flow at the same flow and solids.
Bed bed_round_cutters(const CleaningLaw& law, const materials::Fluid& fluid, double rock_density,
                      const SlotFlow& slot, double fraction);

/// Factor on the drilling efficiency: what a bed that buries the cutters (packed_efficiency, by the share
/// buried: they grind it again) and a plug over the bit (plugged_efficiency) leave of it.
double regrinding_efficiency(const CleaningLaw& law, double buried, double plug);

/// Flow past the bit when the pump sends Q (m3/s) and a depth of cut d (m/rev) makes cuttings of a rock's
/// density (kg/m3): their size at d shared by the blades, what of them is lifted (cuttings.hpp), slots and
/// plug (hole_cleaning.hpp), where the turning bit (angular speed omega, rad/s) throws them.
/// `annulus_velocity` (m/s): that of slot_flow at the same flow and solids.
BottomFlow bottom_flow(const CleaningLaw& law, const materials::Fluid& fluid, double Q, double rock_density,
                       const Solids& solids, double annulus_velocity, double d, double omega);

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

/// What slots and plug hold where both have settled at a depth of cut d (m/rev) and a rotary speed (1/s), the
/// other arguments as bottom_flow and solids_rates have them, to a millionth: by Newton's method from `from`.
/// `from` itself where it does not get there: slots that choke, or no flow.
Solids settled_solids(const CleaningLaw& law, const materials::Fluid& fluid, double Q, double rock_density,
                      const Solids& from, double annulus_velocity, double d, double rotary_speed,
                      double hole_depth);

}  // namespace dullcast::hydraulics
