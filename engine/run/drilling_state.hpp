#pragma once

#include <Eigen/Core>

namespace dullcast {

/// The state of one run as one vector, so that odeint can step it. For n cutters:
/// table temperatures (K), carbide temperatures (K), settled flat temperatures (K), worn heights (m), heat
/// damages; then body temperature (K), bottom-hole fluid temperature (K), hole depth (m), and three energies
/// since the hole began (J): spent at the bit, carried off by the fluid, left in the rock by the flats.
using State = Eigen::VectorXd;

struct StateLayout {
  Eigen::Index cutters = 0;

  Eigen::Index size() const { return 5 * cutters + 6; }
  Eigen::Index body() const { return 3 * cutters; }
  Eigen::Index fluid() const { return 3 * cutters + 1; }
  Eigen::Index slow_from() const { return 3 * cutters + 2; }
  Eigen::Index depth() const { return 5 * cutters + 2; }
  Eigen::Index spent() const { return 5 * cutters + 3; }
  Eigen::Index carried() const { return 5 * cutters + 4; }
  Eigen::Index left_in_rock() const { return 5 * cutters + 5; }

  auto table(auto& x) const { return x.segment(0, cutters).array(); }
  auto carbide(auto& x) const { return x.segment(cutters, cutters).array(); }
  auto settled(auto& x) const { return x.segment(2 * cutters, cutters).array(); }
  auto worn(auto& x) const { return x.segment(3 * cutters + 2, cutters).array(); }
  auto damage(auto& x) const { return x.segment(4 * cutters + 2, cutters).array(); }
};

}  // namespace dullcast
