#include "engine/simulation/retention.hpp"

#include <algorithm>
#include <cmath>

#include "engine/statistics/counter_random.hpp"
#include "models/common/constants.hpp"
#include "models/wear/body_wear.hpp"

namespace dullcast::simulation {
namespace {

/// Streams of random numbers, one a kind of thing and a number within it.
enum class Stream : std::uint64_t { pocket = 1, bond = 2, blade = 3, chip = 4 };

std::uint64_t stream_of(Stream kind, Eigen::Index number) {
  return (static_cast<std::uint64_t>(kind) << 32) + static_cast<std::uint64_t>(number);
}

Eigen::ArrayXd drawn(const scenario::RandomEvents& chance, Stream kind, Eigen::Index count, double spread) {
  Eigen::ArrayXd strength = Eigen::ArrayXd::Ones(count);
  if (!chance.drawn) return strength;
  for (Eigen::Index i = 0; i < count; ++i) {
    strength(i) = std::exp(spread * statistics::standard_normal_at(static_cast<std::uint64_t>(chance.seed),
                                                                   stream_of(kind, i), 0));
  }
  return strength;
}

/// The blow of an inclusion that fills the cut of one cutter, N.
double inclusion_blow(const BitModels& bit, const failure::Inclusions& inclusions, double width, double depth,
                      double v) {
  if (!(inclusions.share > 0.0)) return 0.0;
  return failure::impact_line_load(bit.chips, inclusions.strength, v,
                                   std::min(depth, 0.5 * inclusions.size)) *
         std::min(width, inclusions.size);
}

}  // namespace

void retention_loads(const DrillingSystem& system, const State& x, RetentionLoads& loads) {
  const BitModels& bit = system.models().bit;
  const CutterRetention& seats = bit.retention;
  const Evaluation& now = system.evaluation();
  const StateLayout& layout = system.layout();
  const Eigen::Index n = layout.cutters;
  if (loads.pocket.size() != n) {
    loads.pocket.setZero(n);
    loads.bond.setZero(n);
    loads.blade.setZero(std::max(bit.bit.blades, 1));
  }
  loads.blade.setZero();
  const cutting::RockResistance& rock = system.resistance();
  const double fit = wear::pocket_fit(x(layout.eroded()), x(layout.blade_wear()), seats.pocket_depth);
  for (Eigen::Index i = 0; i < n; ++i) {
    const double rough = bit.chips.roughness_overload - 1.0;
    const double cutting = rock.specific_energy / rock.drilling_efficiency * now.loads.area(i);
    const double blow = inclusion_blow(bit, system.interval().inclusions, now.loads.engaged_width(i),
                                       now.loads.mean_depth(i), now.sliding_speed(i));
    const double along = now.tangential_force(i) + rough * cutting + blow;
    const double normal = now.normal_force(i) + bit.directions.zeta(i) * (rough * cutting + blow);
    // The bond by the contact; the braze where the pocket is, behind.
    const double table = layout.table(x)(i), carbide = layout.carbide(x)(i);
    const double braze = layout.part(thermal::carbide_rest, x)(i);
    loads.pocket(i) =
        failure::pocket_load_share(seats.braze, std::hypot(along, normal), seats.bonded_area, fit, braze);
    loads.bond(i) = failure::bond_load_share(seats.bond, along, normal, bit.bit.shape, bit.bit.back_rake(i),
                                             0.5 * (table + carbide));
    loads.blade(bit.bit.blade(i)) += along * seats.blade.height;
  }
  for (Eigen::Index b = 0; b < loads.blade.size(); ++b) {
    loads.blade(b) = loads.blade(b) > 0.0
                         ? failure::blade_load_share(loads.blade(b), seats.blade, seats.body_strength)
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

RetentionStrengths retention_strengths(const scenario::Scenario& scenario, const BitModels& models) {
  const Eigen::Index n = models.bit.count();
  const CutterRetention& seats = models.retention;
  return {drawn(scenario.random_events, Stream::pocket, n, seats.cutter_spread),
          drawn(scenario.random_events, Stream::bond, n, seats.cutter_spread),
          drawn(scenario.random_events, Stream::blade, std::max(models.bit.blades, 1), seats.body_spread)};
}

double chip_allowance(const scenario::RandomEvents& chance, Eigen::Index cutter, int chip) {
  return statistics::unit_exponential_at(static_cast<std::uint64_t>(chance.seed),
                                         stream_of(Stream::chip, cutter), static_cast<std::uint64_t>(chip));
}

}  // namespace dullcast::simulation
