#pragma once

#include <Eigen/Core>

#include "models/failure/chipping.hpp"
#include "models/failure/edge_cuts.hpp"
#include "models/failure/sudden_failure.hpp"
#include "models/geometry/by_kind.hpp"

namespace dullcast::failure {

/// What holds one kind of cutter, and what it holds.
struct HeldKind {
  BondLaw bond;
  geometry::CutterShape shape;
  double bonded_area = 0.0;  // m2, of its pocket
};

/// What holds the cutters and the blades of one bit, at median strength, and how strengths spread.
struct CutterRetention : geometry::ByKind<HeldKind> {
  BrazeLaw braze;
  BladeSection blade;
  ChipLaw chips;                   // whose overload and impedance the peaks of force have
  Eigen::ArrayXd back_rake, zeta;  // rad and 1, one per cutter
  Eigen::ArrayXi blade_of;         // blade of each cutter
  int blades = 1;
  double pocket_depth = 0.0;   // m
  double body_strength = 0.0;  // Pa
  double cutter_spread = 0.0;  // 1, of ln(strength), pockets and bonds
  double body_spread = 0.0;    // 1
};

/// What pulls at it at one instant. Arrays have one entry per cutter.
struct RetentionDemand {
  const Eigen::ArrayXd& tangential_force;  // N
  const Eigen::ArrayXd& normal_force;      // N
  EdgeCuts cuts;
  Eigen::Ref<const Eigen::ArrayXd> table, carbide,
      pocket;                     // K: of table and carbide by the contact, of the braze
  double cutting_pressure = 0.0;  // Pa, eps/e, before cuts.strength
  double pocket_fit = 1.0;        // 1, how well pockets still hold
  Inclusions inclusions;
};

/// Load over median strength of all that lets go at once: 1 breaks the median one.
struct RetentionLoads {
  Eigen::ArrayXd pocket, bond;  // one per cutter
  Eigen::ArrayXd blade;         // one per blade
};

/// How strong each is over the median of its kind: 1, or drawn.
struct RetentionStrengths {
  Eigen::ArrayXd pocket, bond, blade;
};

/// Loads under peak forces: cutting at the overload of a rough bottom, and the blow of an inclusion where the
/// rock holds some. Fills `loads` in place. The bond's temperature is the mean of table and carbide by the
/// contact.
void retention_loads(const CutterRetention& retention, const RetentionDemand& demand, RetentionLoads& loads);

/// The most stressed one against its strength: what lets go first.
struct WeakestLink {
  enum class Part { pocket, bond, blade } part = Part::pocket;
  double used = 0.0;  // load over its own strength; 1 lets go
  Eigen::Index number = 0;
};
/// Cutters that are gone, and bonds of tables that are gone (1), no longer count.
WeakestLink weakest_link(const RetentionLoads& loads, const RetentionStrengths& strengths,
                         const Eigen::ArrayXi& lost, const Eigen::ArrayXi& table_gone);

}  // namespace dullcast::failure
