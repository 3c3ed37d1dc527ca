#include "models/failure/edge_hazard.hpp"

namespace dullcast::failure {

namespace {

EdgeImpacts impacts_on(const EdgeCuts& cuts, const EdgeGround& ground, Eigen::Index i) {
  EdgeImpacts impacts{cuts.engaged_width(i), cuts.depth(i),
                      cuts.sliding_speed(i), ground.strength * cuts.strength(i),
                      ground.inclusions,     ground.impedance};
  impacts.inclusions.strength *= cuts.strength(i);
  return impacts;
}

}  // namespace

void EdgeHazardLaw::look_at_wedges() {
  wedges.clear();
  wedges.reserve(static_cast<std::size_t>(back_rake.size()));
  for (Eigen::Index i = 0; i < back_rake.size(); ++i) wedges.emplace_back(of(i).shape, back_rake(i));
}

void edge_hazard_rates(const EdgeHazardLaw& law, const EdgeStates& edges, const EdgeCuts& cuts,
                       const EdgeGround& ground, Eigen::ArrayXd& rates) {
  for (Eigen::Index i = 0; i < rates.size(); ++i) {
    rates(i) = edges.lost(i) ? 0.0
                             : chip_hazard_rate(law.of(i).chips, law.of(i).shape, edges.edge(law, i),
                                                impacts_on(cuts, ground, i), ground.factors);
  }
}

void add_touch_down_hazards(const EdgeHazardLaw& law, const EdgeStates& edges, const EdgeCuts& cuts,
                            const EdgeGround& ground, Eigen::Ref<Eigen::ArrayXd> hazards) {
  for (Eigen::Index i = 0; i < hazards.size(); ++i) {
    if (edges.lost(i)) continue;
    hazards(i) += touch_down_hazard(law.of(i).chips, law.of(i).shape, edges.edge(law, i),
                                    impacts_on(cuts, ground, i), ground.factors);
  }
}

void add_boundary_hazards(const EdgeHazardLaw& law, const EdgeStates& edges, const EdgeCuts& cuts,
                          double strength, double d, Eigen::Ref<Eigen::ArrayXd> hazards) {
  if (!(d > 0.0)) return;
  const double impacts = law.boundary_undulation / d;
  for (Eigen::Index i = 0; i < hazards.size(); ++i) {
    if (edges.lost(i) || !(cuts.engaged_width(i) > 0.0)) continue;
    hazards(i) += boundary_hazard(law.of(i).chips, law.of(i).shape, edges.edge(law, i), cuts.depth(i),
                                  strength * cuts.strength(i), cuts.sliding_speed(i), impacts);
  }
}

void add_quench_hazards(const EdgeHazardLaw& law, const EdgeStates& edges, double T_fluid,
                        const Eigen::ArrayXd& convection, Eigen::Ref<Eigen::ArrayXd> hazards) {
  for (Eigen::Index i = 0; i < hazards.size(); ++i) {
    const double stress = quench_stress(law.of(i).chips, edges.temperature(i), T_fluid, convection(i),
                                        law.of(i).shape.table_thickness, law.of(i).table_conductivity);
    hazards(i) += quench_hazard(law.of(i).chips, stress, edges.edge(law, i));
  }
}

}  // namespace dullcast::failure
