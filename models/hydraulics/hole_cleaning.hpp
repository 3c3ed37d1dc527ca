#pragma once

#include "models/hydraulics/cuttings.hpp"
#include "models/materials/fluid.hpp"

namespace dullcast::hydraulics {

/// The junk slots of a bit, taken as one mixed volume, and what leads to and from them. SI.
struct Slots {
  double area = 0.0;             // m2, open between the blades
  double volume = 0.0;           // m3
  double annulus_area = 0.0;     // m2, hole less pipe
  double packed_fraction = 0.0;  // 1, solids when packed: about 0.6 [hb]
  double port_area = 0.0;        // m2, of all ports; 0: none known
  double discharge = 0.0;        // 1, C_d of the ports
  double bed_grain = 0.5e-3;     // m, grains of packed cuttings
  double pressure_limit = 0.0;   // Pa that the pump can spend on ports and slots; infinity: none
};

/// What passes the slots at one solids fraction.
struct SlotFlow {
  double flow = 0.0;              // m3/s that still passes
  double slot_velocity = 0.0;     // m/s between the solids
  double annulus_velocity = 0.0;  // m/s
  double pressure_drop = 0.0;     // Pa, ports and slots
  double out = 0.0;             // 1/s, rate at which the solids fraction leaves (the whole of it, not per c)
  double out_slope = 0.0;       // 1/s, d(out)/dc, 0 or more unless the pressure limit throttles the flow
  double overflow = 0.0;        // 1/s, the part of out that the bit pushes up as a plug
  double overflow_slope = 0.0;  // 1/s, d(overflow)/dc
  double packing = 0.0;         // 1, 0 clean to 1 packed
  double packing_slope = 0.0;   // 1, d(packing)/dc
};

/// Flow past the slots when the pump sends Q (m3/s) and the slots hold a solids fraction c. Total and C1 in
/// c.
/// - packing: a smooth step from 0 at c = 0.4 packed_fraction to 1 at 0.9 packed_fraction [asm].
/// - Pressure: the ports (API RP 13D form), 1.5 velocity heads of the open slots, and as they pack the bed of
///   Ergun, Chem. Eng. Prog. 48, 1952 [hb] over the slots' length with grains D = bed_grain, times packing:
///   dp/L = 150 mu (1 - e)^2 v/(e^3 D^2) + 1.75 rho (1 - e) v^2/(e^3 D), e = 1 - packed_fraction, v = Q/area.
/// - flow: the pump's, or what pressure_limit drives when that is less, the two joined as a power mean of
/// order
///   -8 (within 1e-4 of Q while under a third of the limit's flow). No limit: Q exactly. Never above either.
/// - slot_velocity: flow/(area (1 - c)), the solids standing still.
/// - out: well mixed slots give off solids in step with the water, carrying c/(1 - c)/volume (share and flow
///   within what is physical). What is lifted leaves with the flow, what is not must first be ground finer,
///   0.5/s of it [asm]: 1/carrying = 1/(lifted_share flow) + (1 - lifted_share)/(0.5/s volume), so that the
///   steady c is cuttings_concentration when all is lifted, and a fast gas that lifts little still packs;
///   cutters whose faces look outward throw cuttings out at `thrown` (m/s, throwing_radius) as the flow
///   carries them: it carries 1 + thrown/(|thrown| + flow/area) of what it does alone, between none and twice
///   [asm]; and near packing the bit pushes rock up like a plug: 0.1/s packed_fraction y^2/(1 - y) with y = 0
///   at 0.9 packed_fraction and 1 when packed [asm], which takes any inflow before c reaches packed_fraction.
///   Rock that is not lifted stays in the slots and is ground again. out_slope holds lifted_share constant.
/// Slots' areas and volume count as at least 1e-9 (SI), bed_grain as 1 micrometre, packed_fraction within
/// 0.05 to 0.95, Q from 0.
SlotFlow slot_flow(const Slots& slots, const materials::Fluid& fluid, double Q, double c, double lifted_share,
                   double thrown = 0.0);

/// dc/dt, 1/s: rock_volume_rate/volume - out. rock_volume_rate m3/s of solid rock (ROP times the hole's
/// area), counted from 0. With the pump off the slots pack (packing 1) in 0.9 packed_fraction
/// volume/rock_volume_rate.
double solids_rate(const Slots& slots, const SlotFlow& flow, double c, double rock_volume_rate);

/// The plug of cuttings that packed slots push up over the bit, as multiples of what the packed slots hold.
struct Plug {
  double flushed = 0.0;        // 1/s, multiples that the flow takes away
  double flushed_slope = 0.0;  // 1/s, by the multiple
  double blocks = 0.0;         // 1, share of the slots' outflow that it holds back
  double height = 0.0;         // m, over the slots, filling the annulus
};
/// What the flow does to a plug: it is eaten away as fast as lifted_share of the flow takes packed cuttings
/// along, lifted_share flow/volume, the last tenth of a slot's filling ever more slowly; while it is there
/// the slots below it do not clear [asm]. Total and smooth in the multiple.
Plug plug_over_bit(const Slots& slots, double flow, double lifted_share, double multiple);

/// Factor on the drilling efficiency under a plug: rock that is cut must push it up, ever harder as it grows:
/// 1/(1 + (height/(5 diameters))^2) [asm]. A bit that has packed itself in slowly comes to a standstill.
double plugged_efficiency(double height, double bit_diameter);

/// Factor on the drilling efficiency e: 1 when clean, packed_share when packed (0.2 to 0.4 [asm]: the bit
/// grinds its cuttings again), linear in packing, or in the share that a bed buries of the cutters.
double packed_efficiency(double packing, double packed_share);

/// How clean the annulus stays, above 1 clean enough: the flow that lifts, against what dilutes the cuttings
/// to a greatest concentration, lifted_share Q C_max/((1 - C_max) rock_volume_rate). C_max 5 % by volume is
/// common practice (Pigott 1941, from memory). At most 1e6, which is also what no rock gives.
double cleaning_index(double Q, double lifted_share, double rock_volume_rate,
                      double greatest_concentration = 0.05);

/// Whether the uphole flow cleans a hole: it lifts nine tenths of the cuttings at least [asm], and keeps them
/// under the greatest concentration (cleaning_index 1 or more). The one rule for every report.
inline constexpr double lifting_share = 0.9;
bool cleans_hole(double lifted_share, double cleaning_index);

/// How near the slots are to plugging, above 1 a risk: rock made in an interruption of the flow over the room
/// that the slots have for it, rock_volume_rate interruption/(packed_fraction volume). 5 s is a stumble of
/// the pump or a flow that the hole takes up [asm].
double plugging_index(const Slots& slots, double rock_volume_rate, double interruption = 5.0);

/// Open area between blades, m2: the hole's less a hub's less blades of even width from hub to gauge [asm].
/// Fewer or narrower blades leave more. Radii and width m; at least 0.
double open_slot_area(double bit_radius, int blades, double blade_width, double hub_radius);

/// Risk that sticky rock clings to the bit, an index of 0 to 1 [asm]:
///   stickiness/(1 + P/P_0) c/(c + 0.05 slot_share/0.35)
/// stickiness 0..1 of the rock, P hydraulic power at the bit per area of hole W/m2, P_0 = 1 hp/in2 (1.16
/// MW/m2; common practice asks for 1 to 2.5 hp/in2 in sticky ground, and water wells have far less), c the
/// solids fraction in the slots, slot_share their area over the hole's. It orders cases; it is no
/// probability.
double balling_risk(double stickiness, double hydraulic_power_per_area, double solids_fraction,
                    double slot_share);

}  // namespace dullcast::hydraulics
