#include "engine/simulation/drawn_strengths.hpp"

#include <algorithm>
#include <cmath>

#include "engine/statistics/counter_random.hpp"
#include "models/wear/body_wear.hpp"

namespace dullcast::simulation {
namespace {

/// Streams of random numbers, one a kind of thing and a number within it.
enum class Stream : std::uint64_t { pocket = 1, bond = 2, blade = 3, chip = 4 };

std::uint64_t stream_of(Stream kind, Eigen::Index number) {
  return (static_cast<std::uint64_t>(kind) << 32) + static_cast<std::uint64_t>(number);
}

Eigen::ArrayXd drawn(const scenario::RandomEvents& random_events, Stream kind, Eigen::Index count,
                     double spread) {
  Eigen::ArrayXd strength = Eigen::ArrayXd::Ones(count);
  if (!random_events.drawn) return strength;
  for (Eigen::Index i = 0; i < count; ++i) {
    strength(i) =
        std::exp(spread * statistics::standard_normal_at(static_cast<std::uint64_t>(random_events.seed),
                                                         stream_of(kind, i), 0));
  }
  return strength;
}

}  // namespace

void retention_loads(const DrillingSystem& system, const State& x, failure::RetentionLoads& loads) {
  const failure::CutterRetention& retention = system.models().bit.retention;
  const Evaluation& now = system.evaluation();
  const StateLayout& layout = system.layout();
  const cutting::RockResistance& rock = now.resistance;
  failure::retention_loads(
      retention,
      {now.forces.tangential_force, now.forces.normal_force, now.edge_cuts(), layout.table(x),
       layout.carbide(x), layout.pocket(x), rock.specific_energy / rock.drilling_efficiency,
       wear::pocket_fit(x(layout.eroded()), x(layout.blade_wear()), retention.pocket_depth),
       system.interval().edge_ground.inclusions},
      loads);
}

failure::RetentionStrengths retention_strengths(const scenario::RandomEvents& random_events,
                                                const failure::CutterRetention& retention) {
  const Eigen::Index n = retention.blade_of.size();
  return {drawn(random_events, Stream::pocket, n, retention.cutter_spread),
          drawn(random_events, Stream::bond, n, retention.cutter_spread),
          drawn(random_events, Stream::blade, std::max(retention.blades, 1), retention.body_spread)};
}

double chip_allowance(const scenario::RandomEvents& random_events, Eigen::Index cutter, int chip) {
  constexpr int bits_for_chips = 20;  // a million chips no edge loses in a run
  const auto counter = (static_cast<std::uint64_t>(random_events.earlier_runs) << bits_for_chips) +
                       static_cast<std::uint64_t>(chip);
  return statistics::unit_exponential_at(static_cast<std::uint64_t>(random_events.seed),
                                         stream_of(Stream::chip, cutter), counter);
}

}  // namespace dullcast::simulation
