#pragma once

#include <Eigen/Core>

#include "models/thermal/heat_network.hpp"

namespace dullcast::simulation {

/// The state of one run as one vector, so that odeint can step it. For n cutters, the fast part first:
/// temperatures (K) of the tables by the contact, the rest of the tables, the carbides behind the contact,
/// the rest of the carbides (CutterPart), settled flat temperatures (K), body, bottom-hole fluid and
/// warm-rock temperatures (K), water at the bottom over its full amount, solids fraction in the slots, plug
/// over the bit (multiples of the packed slots); then worn heights (m), heat damages, chip hazards, hole
/// depth (m), erosion, blade and pad wear (m), and three energies since the hole began (J): spent at the bit,
/// carried off, left in the rock.
using State = Eigen::VectorXd;

struct StateLayout {
  Eigen::Index cutters = 0;

  Eigen::Index size() const { return 8 * cutters + 13; }
  Eigen::Index body() const { return 5 * cutters; }
  Eigen::Index fluid() const { return 5 * cutters + 1; }
  Eigen::Index warm() const { return 5 * cutters + 2; }
  Eigen::Index water() const { return 5 * cutters + 3; }
  Eigen::Index solids() const { return 5 * cutters + 4; }
  Eigen::Index plug() const { return 5 * cutters + 5; }
  Eigen::Index slow_from() const { return 5 * cutters + 6; }
  Eigen::Index depth() const { return 8 * cutters + 6; }
  Eigen::Index eroded() const { return 8 * cutters + 7; }
  Eigen::Index blade_wear() const { return 8 * cutters + 8; }
  Eigen::Index pad_wear() const { return 8 * cutters + 9; }
  Eigen::Index spent() const { return 8 * cutters + 10; }
  Eigen::Index carried() const { return 8 * cutters + 11; }
  Eigen::Index left_in_rock() const { return 8 * cutters + 12; }

  /// Where part `p` of cutter i stands.
  Eigen::Index part(thermal::CutterPart p, Eigen::Index i) const { return p * cutters + i; }
  auto part(thermal::CutterPart p, auto& x) const { return x.segment(p * cutters, cutters).array(); }
  auto table(auto& x) const { return part(thermal::table_near, x); }
  auto carbide(auto& x) const { return part(thermal::carbide_near, x); }
  /// The four parts of one cutter.
  thermal::PartArray parts(const State& x, Eigen::Index i) const {
    return {x(i), x(cutters + i), x(2 * cutters + i), x(3 * cutters + i)};
  }
  auto settled(auto& x) const { return x.segment(4 * cutters, cutters).array(); }
  auto worn(auto& x) const { return x.segment(5 * cutters + 6, cutters).array(); }
  auto damage(auto& x) const { return x.segment(6 * cutters + 6, cutters).array(); }
  auto chip_hazard(auto& x) const { return x.segment(7 * cutters + 6, cutters).array(); }
};

}  // namespace dullcast::simulation
