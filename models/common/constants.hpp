#pragma once

/// The closed list of letters. Everything else in the code is spelled out.
///
///   W   weight on bit, N (axial force on the rock)
///   N   rotary speed, revolutions per second
///   Q   flow past the bit, m3/s
///   r   radius from the bit axis, m
///   z   depth along the bit axis or the hole, positive downward, m
///   d   depth of cut per revolution, m
///   T   temperature, K
///   v   sliding or flow speed, m/s
///   u   worn height of a cutter, measured in its face, m
///   h   convection or contact conductance, W/(m2 K)
///
/// Everything inside models/ and engine/ is in SI units with temperatures in kelvin and angles in radians.
/// Azimuth is measured clockwise seen from above, which is the direction of rotation.
///
/// Marks say where an equation or a value comes from:
///   [pub] published   [hb] handbook or textbook   [cp] common practice of the trade, no source
///   [mem] from memory   [fit] ours, from the data named   [asm] engineering assumption

namespace dullcast {

inline constexpr double pi = 3.14159265358979323846;
inline constexpr double two_pi = 2.0 * pi;
inline constexpr double standard_gravity = 9.80665;      // m/s2, ISO 80000-3
inline constexpr double standard_atmosphere = 101325.0;  // Pa, ISO 2533
inline constexpr double celsius_zero = 273.15;           // K

}  // namespace dullcast
