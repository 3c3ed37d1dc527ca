#include "models/failure/retention.hpp"

#include <algorithm>
#include <cmath>

namespace dullcast::failure {
namespace {

/// The blow of an inclusion that fills the cut of one cutter, N, over what it bears otherwise: that mean
/// holds stones for their share, which stands for the higher contact under a stone [asm].
double inclusion_blow(const ChipLaw& chips, const Inclusions& inclusions, double width, double depth,
                      double v) {
  if (!(inclusions.share > 0.0) || !(depth > 0.0)) return 0.0;
  const double met = std::min(depth + inclusions.protrusion, 0.5 * inclusions.size);
  return impact_line_load(chips.impact_impedance, inclusions.strength, v, met) *
         std::min(width, inclusions.size);
}

}  // namespace

void retention_loads(const CutterRetention& retention, const RetentionDemand& demand, RetentionLoads& loads) {
  const Eigen::Index n = demand.cuts.area.size();
  if (loads.pocket.size() != n) {
    loads.pocket.setZero(n);
    loads.bond.setZero(n);
    loads.blade.setZero(std::max(retention.blades, 1));
  }
  loads.blade.setZero();
  const double rough = retention.chips.roughness_overload - 1.0;
  for (Eigen::Index i = 0; i < n; ++i) {
    const EdgeCuts& cuts = demand.cuts;
    Inclusions stones = demand.inclusions;
    stones.strength *= cuts.strength(i);
    const double blow =
        inclusion_blow(retention.chips, stones, cuts.engaged_width(i), cuts.depth(i), cuts.sliding_speed(i));
    const double more = rough * (demand.cutting_pressure * cuts.strength(i) * cuts.area(i)) + blow;
    const double along = demand.tangential_force(i) + more;
    const double normal = demand.normal_force(i) + retention.zeta(i) * more;
    loads.pocket(i) = pocket_load_share(retention.braze, std::hypot(along, normal),
                                        retention.of(i).bonded_area, demand.pocket_fit, demand.pocket(i));
    loads.bond(i) = bond_load_share(retention.of(i).bond, along, normal, retention.of(i).shape,
                                    retention.back_rake(i), 0.5 * (demand.table(i) + demand.carbide(i)));
    loads.blade(retention.blade_of(i)) += along * retention.blade.height;
  }
  for (Eigen::Index b = 0; b < loads.blade.size(); ++b) {
    loads.blade(b) = loads.blade(b) > 0.0
                         ? blade_load_share(loads.blade(b), retention.blade, retention.body_strength)
                         : 0.0;
  }
}

WeakestLink weakest_link(const RetentionLoads& loads, const RetentionStrengths& strengths,
                         const Eigen::ArrayXi& lost, const Eigen::ArrayXi& table_gone) {
  WeakestLink weakest;
  const auto look = [&](WeakestLink::Part part, Eigen::Index i, double used) {
    if (used > weakest.used || std::isnan(used)) weakest = {part, used, i};
  };
  for (Eigen::Index i = 0; i < loads.pocket.size(); ++i) {
    if (lost(i)) continue;
    look(WeakestLink::Part::pocket, i, loads.pocket(i) / strengths.pocket(i));
    if (!table_gone(i)) look(WeakestLink::Part::bond, i, loads.bond(i) / strengths.bond(i));
  }
  for (Eigen::Index b = 0; b < loads.blade.size(); ++b)
    look(WeakestLink::Part::blade, b, loads.blade(b) / strengths.blade(b));
  return weakest;
}

}  // namespace dullcast::failure
