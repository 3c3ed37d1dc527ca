#pragma once

#include "models/materials/fluid.hpp"

namespace dullcast::hydraulics {

/// The rock a bit makes: how large it is, how fast it sinks, how much of it a flow lifts. Lengths m. Every
/// function is total: what lies outside a range is held at its end, a NaN comes back as a NaN.

/// Slip velocity of a grain: how fast it sinks in still fluid, m/s. size m is the sieve diameter.
///   v = R g D^2/(C_1 nu + sqrt(0.75 C_2 R g D^3)), R = rho_p/rho_f - 1, C_1 = 18, C_2 = 1
/// Ferguson & Church, J. Sedimentary Research 74(6), 2004 [pub], its constants for natural grains: Stokes'
/// law when small, a drag coefficient of 1 when large. Smooth spheres sink faster when large (C_2 = 0.4),
/// flat or very angular chips slower (C_1 = 24, C_2 = 1.2). Within 12 % of van Rijn 1984 and Soulsby 1997 for
/// natural sand in water from 0.2 to 4 mm (they differ as much from each other), and within 5 % of a textbook
/// example of crushed limestone (tests/published/slip_velocity_test.cpp). The fluid counts as Newtonian with
/// its stated viscosity. 0 for a grain not denser than the fluid.
double slip_velocity(const materials::Fluid& fluid, double particle_density, double size);

/// The largest grain that an uphole speed v (m/s) lifts, m: the inverse of slip_velocity to rounding. 0 at
/// v <= 0; infinity for a grain not denser than the fluid.
double size_lifted(const materials::Fluid& fluid, double particle_density, double v);

/// Mass share of broken rock finer than `size`: 1 - exp(-(size/mean_size)^spread), Rosin & Rammler, J. Inst.
/// Fuel 7, 1933 [hb]. mean_size m > 0 is the law's characteristic size (63.2 % is finer), spread its
/// exponent: large is even, about 1 for broken rock [asm].
double share_finer(double size, double mean_size, double spread);

/// Characteristic size of cuttings, m, from the depth of cut d (m) that one blade takes in its passage:
///   s_0 + (s_1 - s_0) x/(x + s_1 - s_0), x = 0.8 d, s_0 = 0.1 mm, s_1 = 3 mm [asm]
/// A chip is about as thick as the cut is deep and breaks once on its way; a cut of no depth crushes to fine
/// sand, and the crowded space under a bit keeps chips to a few millimetres. 1 mm a blade gives 0.7 mm.
/// Common practice: most chips of such bits are finer than 2 mm in shale and sandstone.
double cuttings_size(double depth_of_cut);

/// Volume share of cuttings in the stream that leaves when all of them are lifted: C = ROP A/(Q + ROP A)
/// [hb]. rop m/s, hole area m2, Q m3/s. 0 when nothing is drilled, 1 when rock is made without flow.
double cuttings_concentration(double rop, double hole_area, double Q);

/// Speed of cuttings over speed of the fluid in the annulus: 1 - v_slip/v_annulus, 0 where it would fall
/// below [hb: Bourgoyne et al. 1986]. m/s.
double transport_ratio(double v_annulus, double v_slip);

/// Mass share of the cuttings that the annulus lifts: share_finer of size_lifted. 0 at rest and smooth there:
/// the speed counts as v^3/(v^2 + v_0^2), v_0 = 1 mm/s [asm], which is v within 1 % from 1 cm/s on.
double lifted_share(const materials::Fluid& fluid, double particle_density, double mean_size, double spread,
                    double v_annulus);

}  // namespace dullcast::hydraulics
