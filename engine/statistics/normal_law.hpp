#pragma once

namespace dullcast::statistics {

/// The 90 % point of a standard normal variable [hb].
inline constexpr double ninety_percent_point = 1.2815515655446004;

/// The value below which a share u of a standard normal variable lies, u in (0, 1). Throws what Boost throws
/// outside.
double standard_normal_quantile(double u);

/// The share of a standard normal variable below z, to the last digits in the lower tail; NaN for NaN.
double standard_normal_share(double z);

}  // namespace dullcast::statistics
