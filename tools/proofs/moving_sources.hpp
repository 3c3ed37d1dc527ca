#pragma once

/// Heat sources sliding over a half-space, exact, by quadrature: what the model's closed form is held
/// against. Jaeger, J. Proc. R. Soc. New South Wales 76, 1942 [pub]; Carslaw & Jaeger, Conduction of Heat in
/// Solids, 2nd ed., 1959, secs. 10.7 and 8.2 [hb]. Conductances are means over the contact, as h L/k.
namespace dullcast::proofs {

/// A band of length L at Peclet number v L/kappa > 0.
double exact_band_conductance(double peclet);
/// The model's for a band so wide that its stationary part vanishes.
double fast_limit(double peclet);

/// Temperature at (x, y) of the unit disc with unit flux moving towards +x over a half-space of unit
/// conductivity; beta = v a/(2 kappa) >= 0.
double moving_disc_temperature(double x, double y, double beta);
double exact_disc_conductance(double beta);
/// The model's for the same disc.
double blended_disc(double beta);

/// A rectangle of unit length along its travel and the given width.
double exact_rectangle_conductance(double peclet, double width);

}  // namespace dullcast::proofs
