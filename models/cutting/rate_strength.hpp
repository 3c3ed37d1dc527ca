#pragma once

#include <Eigen/Core>

namespace dullcast::cutting {

/// How rock's strength answers to the speed and the depth at which it is deformed. Between the edge and
/// undisturbed rock the speed v falls off over a length, so rock is strained at a rate of about v over that:
/// over the depth of cut h where it is cut, over a length that stays the same under a flat. Rock is stronger
/// by a small power of that rate [fit]: the exponent to the laboratory rows (tools/proofs/lab_model.hpp).
/// Both what is published as strength that grows with speed and as specific energy that falls with depth of
/// cut [pub: Teale, IJRMMS 2, 1965, specific energy against depth] come of it.
struct RateLaw {
  double exponent = 0.0;         // 1, a; 0: neither acts
  double reference_speed = 1.0;  // m/s, v_0
  double reference_depth = 1.0;  // m, h_0
  bool operator==(const RateLaw&) const = default;
};

/// Sliding speeds and depths of cut below these count as these: there are no measurements, and strength does
/// not vanish at rest nor grow without end [asm].
inline constexpr double least_rate_speed = 0.01;  // m/s
inline constexpr double least_rate_depth = 1e-6;  // m

/// Strength at sliding speed v (m/s) over that at the reference: (v/v_0)^a, 1.
double strength_at_speed(const RateLaw& law, double v);

/// That of every cutter at its radius (m) on a bit that turns at `rotary_speed` (rev/s): kept until law,
/// speed or radii change.
class SpeedStrengths {
 public:
  const Eigen::ArrayXd& of(const RateLaw& law, double rotary_speed, const Eigen::ArrayXd& radius);

 private:
  RateLaw law_;
  double rotary_speed_ = 0.0;
  Eigen::ArrayXd radius_, strength_;
};

/// Strength where rock is cut h deep (m) over that at the reference's depth, at the same speed: (h_0/h)^a, 1.
double strength_at_depth(const RateLaw& law, double h);

}  // namespace dullcast::cutting
