#pragma once

#include <limits>
#include <vector>

#include "models/cutting/blade_rubbing.hpp"
#include "models/cutting/cutting_force.hpp"

namespace dullcast::cutting {

/// What blades can carry: nothing without surfaces.
struct BladeBearing {
  const BladeSurfaces* surfaces = nullptr;
  double thickness = 0.0;                                            // m, along travel
  double lost_steel = 0.0;                                           // m, off the blades' faces
  RubbingLimit limit{std::numeric_limits<double>::infinity(), 0.0};  // rubbing_limit of these
};

/// Force of rock on the blades.
struct BladeContact {
  double weight = 0.0;  // N along the axis
  double moment = 0.0;  // N m, integral of r dF
};

/// Where rock stands over the blades, whatever the depth of cut: found once for the outlines of an instant,
/// then asked for many depths of cut. Keeps its storage.
class BladeClearances {
 public:
  /// Nothing is done where outlines, surfaces and steel are those of the last call. `profile` and `surfaces`
  /// are used while this is called only. Allocates where it has never held as many.
  void find(const geometry::WornProfile& profile, const BladeSurfaces& surfaces, double lost_steel);

  /// Blades on rock at depth of cut d (m/rev). Where a blade lies x below the rock it meets,
  /// x = min over m of [d dphi/(2 pi) - (c_m - c_blade)], the rock bears min(1, x/x*) of its bearing strength
  /// over the blade's thickness (no more than the blades' share of the circumference) and, but for a core,
  /// over x more, for what stands over a sunk blade slides up a wedge of 45 deg before its front; with x* = 4
  /// (1 - nu^2) q/E thickness as under a wear flat [asm]. Narrow rock round the axis, within a cutter's
  /// radius, out of which no cutter stands is a core: it is confined by nothing and breaks at the unconfined
  /// strength [asm]. Continuous, and never falls as d grows. `blades` has the surfaces of the last `find`.
  /// Does not allocate.
  BladeContact contact(const RockResistance& rock, const BladeBearing& blades, double d) const;

 private:
  /// A stretch of a blade over one cell.
  struct Stretch {
    double r, width;  // m, its middle and what it takes of the radius
    double clear;     // m/rev: up to this depth of cut cutters keep both its ends clear
    int blade;
    int leads;         // where those of its inner end begin, and behind them those of its outer
    int cutters;       // leads of each end
    bool leaves_core;  // a cutter stands out of its inner end, or it is too far out for a core
  };
  void find_anew(const geometry::WornProfile& profile, const BladeSurfaces& surfaces, double lost_steel);
  void make_room(const geometry::WornProfile& profile, std::size_t blades);
  std::vector<Stretch> stretches_;
  // One entry a lead, a cutter over an end of a stretch: how far it stands out of the blade, m; how far it is
  // before the blade, rad; 1 for one of the blade's own; the share of a turn that it runs ahead; the depth of
  // cut up to which it keeps the end clear, m/rev.
  std::vector<double> stands_out_, ahead_, own_, turns_, clear_;
  // What all this was found for.
  const geometry::WornProfile* profile_ = nullptr;
  const BladeSurfaces* surfaces_ = nullptr;
  double lost_steel_ = 0.0;  // m
  long changes_ = 0;
};

/// The same for one depth of cut alone.
BladeContact blade_contact(const geometry::WornProfile& profile, const RockResistance& rock,
                           const BladeBearing& blades, double d);

}  // namespace dullcast::cutting
