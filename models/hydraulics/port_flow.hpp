#pragma once

namespace dullcast::hydraulics {

/// Flow through the ports of a bit, in the form of API RP 13D and RP 7G [hb]; worked example in Bourgoyne et
/// al., Applied Drilling Engineering, SPE, 1986, chapter 4 (12.0 lbm/gal, 400 gal/min, three 13/32 in
/// nozzles, C_d 0.95: 1,169 psi and 820 lbf). SI throughout. Each function throws std::domain_error where its
/// ranges are not kept.

/// Pressure drop over the ports, Pa: rho Q^2/(2 C_d^2 A^2). density kg/m3 >= 0, Q m3/s >= 0, area of all
/// ports together m2 > 0, discharge coefficient above 0 and up to 1.03 (API RP 13D uses 0.95 to 1.03).
double port_pressure_drop(double density, double Q, double area, double discharge);

/// Mean speed in the ports, m/s: Q/A. Q m3/s >= 0, area m2 > 0.
double jet_velocity(double Q, double area);

/// Force of the jets on the hole bottom, N: rho Q v. density kg/m3, Q m3/s and v m/s, all >= 0. With v = C_d
/// sqrt(2 dp/rho), which is Q/A, this is the handbooks' 0.01823 C_d q sqrt(rho dp) (lbf, gal/min, lbm/gal,
/// psi).
double jet_impact(double density, double Q, double velocity);

/// Flow that a pressure drives through the ports, m3/s: C_d A sqrt(2 dp/rho), the inverse of
/// port_pressure_drop. pressure Pa >= 0, density kg/m3 > 0, the rest as there.
double port_flow_at(double density, double pressure, double area, double discharge);

/// Power that a flow spends over a pressure drop, W: dp Q. Total: whatever is given is multiplied.
double hydraulic_power(double pressure, double Q);

}  // namespace dullcast::hydraulics
