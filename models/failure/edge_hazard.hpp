#pragma once

#include <Eigen/Core>
#include <vector>

#include "models/failure/chipping.hpp"
#include "models/failure/edge_cuts.hpp"
#include "models/geometry/by_kind.hpp"

namespace dullcast::failure {

/// The edges of one kind of cutter.
struct EdgeKind {
  ChipLaw chips;  // of kinds on one bit only the edges' strength differs
  geometry::CutterShape shape;
  double table_conductivity = 0.0;  // W/(m K)
};

/// The edges of one bit: what decides how readily they chip and stays the same along the hole.
struct EdgeHazardLaw : geometry::ByKind<EdgeKind> {
  Eigen::ArrayXd back_rake;          // rad, one per cutter
  double boundary_undulation = 0.0;  // m, height over which a harder layer's top comes and goes under the bit
  std::vector<WearingWedge> wedges;  // of each cutter, by look_at_wedges; empty: worked out anew each time
  /// Works out what follows from shapes and rakes alone. To be called again where these change.
  void look_at_wedges();
};

/// The edges at one instant. Arrays have one entry per cutter.
struct EdgeStates {
  Eigen::Ref<const Eigen::ArrayXd> worn_height;  // m
  Eigen::Ref<const Eigen::ArrayXd> temperature;  // K
  Eigen::Ref<const Eigen::ArrayXd> damage;       // 1, heat damage
  const Eigen::Array<bool, Eigen::Dynamic, 1>& lost;
  CuttingEdge edge(const EdgeHazardLaw& law, Eigen::Index i) const {
    return {law.back_rake(i), worn_height(i), temperature(i), damage(i),
            law.wedges.empty() ? nullptr : &law.wedges[static_cast<std::size_t>(i)]};
  }
};

/// The ground as edges meet it.
struct EdgeGround {
  double strength = 0.0;   // Pa, at the hole bottom, between stones
  double impedance = 0.0;  // Pa s/m, rho c
  Inclusions inclusions;
  PeakFactors factors;  // of its loads, by peak_factors
};

/// chip_hazard_rate of every edge, 1/s; none of a lost cutter.
void edge_hazard_rates(const EdgeHazardLaw& law, const EdgeStates& edges, const EdgeCuts& cuts,
                       const EdgeGround& ground, Eigen::ArrayXd& rates);

/// Adds to each hazard (1) what setting the bit on bottom does (touch_down_hazard), where it then cuts
/// `cuts`.
void add_touch_down_hazards(const EdgeHazardLaw& law, const EdgeStates& edges, const EdgeCuts& cuts,
                            const EdgeGround& ground, Eigen::Ref<Eigen::ArrayXd> hazards);

/// Adds to each hazard (1) what entering rock of the given greater strength (Pa) does at a depth of cut d
/// (m/rev): its top comes and goes for undulation/d revolutions, and each edge that cuts strikes it once in
/// each, as deep as it cut before (boundary_hazard).
void add_boundary_hazards(const EdgeHazardLaw& law, const EdgeStates& edges, const EdgeCuts& cuts,
                          double strength, double d, Eigen::Ref<Eigen::ArrayXd> hazards);

/// Adds to each hazard (1) what cold fluid at T_fluid (K) does to hot tables (quench_stress, quench_hazard);
/// convection W/(m2 K) of each cutter.
void add_quench_hazards(const EdgeHazardLaw& law, const EdgeStates& edges, double T_fluid,
                        const Eigen::ArrayXd& convection, Eigen::Ref<Eigen::ArrayXd> hazards);

}  // namespace dullcast::failure
