#pragma once

namespace dullcast::hydraulics {

/// Cuttings that the flow does not keep in suspension lie on the bottom, round the cutters. Every function is
/// total; a NaN comes back as a NaN.

/// Share of the cuttings in the slots that has settled, 1, from the flow's velocity between them and their
/// slip velocity (m/s, counted from 0):
///   1 - step(T/T_s), T = transport_ratio(slot_velocity, slip_velocity), step = 3 x^2 - 2 x^3 within 0 to 1.
/// All of it where grains sink faster than the water rises (T = 0; so with the pump off), none from T = T_s
/// on: exactly none, so that a bit with its usual flow knows nothing of a bed. Common practice asks for a
/// transport ratio above about 0.5 [cp]. Grains without weight do not settle while anything flows. Between
/// sudden changes of the flow the share follows at once: a slot's height is sunk through in about two
/// seconds. suspending_transport within 1e-3 to 0.999.
double settled_share(double slot_velocity, double slip_velocity, double suspending_transport);

/// Depth of the bed that settled cuttings make over the whole bottom, m: what of the solids has settled, in a
/// bed of packed_fraction, over the hole's area. With the pump off a hole deepened by z is covered
/// z/packed_fraction deep, whatever the rock. solids m3, hole_area m2 (at least 1e-9), packed_fraction within
/// 0.05 to 0.95.
double settled_depth(double solids, double settled, double packed_fraction, double hole_area);

/// Share of a cutter's exposed surface that a bed buries: a smooth step of its depth over what buries it
/// whole (m, at least 0.01 mm).
double buried_share(double depth, double burying_depth);

}  // namespace dullcast::hydraulics
