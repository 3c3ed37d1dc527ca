#pragma once

namespace dullcast {

/// Pipe over collars hanging below the head. N/m in air, m.
struct DrillString {
  double pipe_weight = 0.0;
  double collar_weight = 0.0;
  double collar_length = 0.0;
  double steel_density = 7850.0;  // kg/m3 [hb]
};

/// Buoyed weight of the string at bit depth z, N: (1 - rho_f/rho_s) (collars first, pipe above them) [hb].
/// A hole shallower than the collars hangs only what is below the head. z >= 0.
double buoyed_string_weight(const DrillString& string, double z, double fluid_density);

/// Weight on bit, N: pull-down + buoyed string - holdback, never below 0 (off bottom is a legal state) [cp].
double weight_on_bit(double pull_down, double buoyed_weight, double holdback);

/// Depth at which the buoyed string alone weighs `limit`, m; infinity when it never does.
double depth_where_string_weighs(const DrillString& string, double limit, double fluid_density);

}  // namespace dullcast
