#pragma once

namespace dullcast::cutting {

/// Pipe over collars hanging below the head. N/m in air, m.
struct DrillString {
  double pipe_weight = 0.0;
  double collar_weight = 0.0;
  double collar_length = 0.0;
  double steel_density = 7850.0;  // kg/m3 [hb]
};

/// Buoyed weight of the string at bit depth z, N: (1 - rho_f/rho_s) (collars first, pipe above them) [hb].
/// A hole shallower than the collars hangs only what is below the head. Throws std::domain_error for z < 0, a
/// negative weight or length, or a fluid not lighter than steel.
double buoyed_string_weight(const DrillString& string, double z, double fluid_density);

/// Weight on bit, N: pull-down + buoyed string - holdback, never below 0 (off bottom is a legal state) [cp].
/// Throws std::domain_error when the sum is not a number.
double weight_on_bit(double pull_down, double buoyed_weight, double holdback);

/// Depth at which the buoyed string alone weighs `limit`, m; infinity when it never does. Throws
/// std::domain_error for a negative limit or a string that buoyed_string_weight refuses.
double depth_where_string_weighs(const DrillString& string, double limit, double fluid_density);

}  // namespace dullcast::cutting
