#pragma once

#include "engine/simulation/drilling_system.hpp"

namespace dullcast::simulation {

/// What decides how likely edges are to chip at one moment of a settled bit, but for their wear and damage.
/// Arrays have one entry per cutter.
struct EdgeMoment {
  Eigen::ArrayXd flat_temperature;  // K
  Eigen::ArrayXd engaged_width;     // m
  Eigen::ArrayXd area;              // m2
  Eigen::ArrayXd strength;          // 1, as in failure::EdgeCuts
  double pace = 0.0;                // s/m
  /// Where the system stands.
  void note(const DrillingSystem& system);
};

/// Chip hazards that edges gain over a stretch of depth. They are strong functions of what hardly changes: a
/// few micrometres take an edge from bevel to flat, and hazard goes with a high power of the load. So forces
/// and temperatures are taken to run straight between two moments, wear and damage too, and the hazard's law
/// is summed up in between (Simpson's rule on as many pieces as it changes much). That needs no force anew.
class HazardsBetween {
 public:
  explicit HazardsBetween(Eigen::Index cutters);

  /// Gains over the last `size` metres of depth, from the state `start` to `end`; rates by depth at both ends
  /// are known (1/m). `wrong`: how far they may be off, a share of what they differ from the trapezoid's.
  /// Returns false, and leaves both alone, where the trapezoid will do.
  bool gain(const DrillingSystem& system, const State& start, const EdgeMoment& from, const State& end,
            const EdgeMoment& to, double size, const Eigen::Ref<const Eigen::ArrayXd>& first,
            const Eigen::Ref<const Eigen::ArrayXd>& last, Eigen::ArrayXd& gained, Eigen::ArrayXd& wrong);

 private:
  EdgeMoment between_;
  Eigen::ArrayXd worn_, damage_, rates_;
};

}  // namespace dullcast::simulation
