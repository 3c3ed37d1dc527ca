#pragma once

namespace dullcast::condition {

/// Cost of hole per metre (or per foot, with F in feet): C = (B + R (t_rot + t_conn + t_trip))/F [hb:
/// Bourgoyne et al., Applied Drilling Engineering, 1986]. Money, money per time, times, length > 0 in
/// consistent units. Throws std::domain_error when the length is not positive or anything is negative,
/// infinite or NaN.
double cost_per_length(double bit_cost, double rig_rate, double rotating_time, double connection_time,
                       double trip_time, double length_drilled);

/// Fuel volume burned for an energy at the bit, m3: energy/(efficiency * energy per volume) [hb].
/// efficiency in (0, 1]; throws std::domain_error otherwise.
double fuel_volume(double energy_at_bit, double engine_efficiency, double fuel_energy_per_volume);

}  // namespace dullcast::condition
