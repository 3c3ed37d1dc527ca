#pragma once

#include <Eigen/Core>

namespace dullcast {

/// The state of one run as one vector, so that odeint can step it. For n cutters, the fast part first:
/// table temperatures (K), carbide temperatures (K), settled flat temperatures (K), body, bottom-hole fluid
/// and warm-rock temperatures (K), water at the bottom over its full amount, solids fraction in the slots,
/// plug over the bit (multiples of the packed slots);
/// then worn heights (m), heat damages, chip hazards, hole depth (m), erosion, blade and pad wear (m), and
/// three energies since the hole began (J): spent at the bit, carried off, left in the rock.
using State = Eigen::VectorXd;

struct StateLayout {
  Eigen::Index cutters = 0;

  Eigen::Index size() const { return 6 * cutters + 13; }
  Eigen::Index body() const { return 3 * cutters; }
  Eigen::Index fluid() const { return 3 * cutters + 1; }
  Eigen::Index warm() const { return 3 * cutters + 2; }
  Eigen::Index water() const { return 3 * cutters + 3; }
  Eigen::Index solids() const { return 3 * cutters + 4; }
  Eigen::Index plug() const { return 3 * cutters + 5; }
  Eigen::Index slow_from() const { return 3 * cutters + 6; }
  Eigen::Index depth() const { return 6 * cutters + 6; }
  Eigen::Index eroded() const { return 6 * cutters + 7; }
  Eigen::Index blade_wear() const { return 6 * cutters + 8; }
  Eigen::Index pad_wear() const { return 6 * cutters + 9; }
  Eigen::Index spent() const { return 6 * cutters + 10; }
  Eigen::Index carried() const { return 6 * cutters + 11; }
  Eigen::Index left_in_rock() const { return 6 * cutters + 12; }

  auto table(auto& x) const { return x.segment(0, cutters).array(); }
  auto carbide(auto& x) const { return x.segment(cutters, cutters).array(); }
  auto settled(auto& x) const { return x.segment(2 * cutters, cutters).array(); }
  auto worn(auto& x) const { return x.segment(3 * cutters + 6, cutters).array(); }
  auto damage(auto& x) const { return x.segment(4 * cutters + 6, cutters).array(); }
  auto chip_hazard(auto& x) const { return x.segment(5 * cutters + 6, cutters).array(); }
};

}  // namespace dullcast
