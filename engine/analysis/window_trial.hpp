#pragma once

#include <array>
#include <optional>
#include <string>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::analysis {

/// What may bind where a bit is run too light, too heavy, too slow or too fast.
enum class WindowLimit {
  inside,      // nothing binds
  heat,        // a flat hotter than the limit
  wear,        // the wear allowance is used up in too few metres
  chips,       // too many edges expected to chip in one pass of the layer
  retention,   // a pocket, bond or blade loaded too near its median strength
  progress,    // too slow
  standstill,  // does not drill, or stops drilling
  packing,     // junk slots fill with cuttings
  film,        // steam covers a cutter, or the bottom runs dry
  rubbing,     // blades bear on the rock: the depth of cut has used up the exposure
  weight,      // more weight than the bit's rule of thumb
  pressure,    // more pressure at the bit than the pump has
  failed       // the trial could not be calculated
};
inline constexpr std::size_t window_limit_count = 13;
/// One word, as files have it: "inside", "heat", ...
const char* window_limit_name(WindowLimit limit);

/// What a trial is held against. A limit of infinity (for least_progress and metres_to_allowance: 0) is none.
/// Rubbing blades, a bit that does not drill and a trial that fails need no figure and always count.
struct WindowLimits {
  double hottest_flat = 0.0;         // K
  double metres_to_allowance = 0.0;  // m of the layer that must not use up the allowance
  double wear_allowance = 0.0;       // m of worn height
  double chips = 0.0;                // 1, expected in one pass of the whole layer, all cutters
  double load_share = 0.0;           // 1, of median strength
  double least_progress = 0.0;       // m/s
  double packing = 0.0;              // 1, solids over the packed fraction
  double film = 0.0;                 // s under a film of steam
  double weight = 0.0;               // N
  double pressure = 0.0;             // Pa, ports and slots
};

/// The usual limits, those from which suitability asks for care: flats to the acceleration temperature, 500 m
/// to the allowance (the worn_height rule, or the share of the least exposure at which repair ends), 0.05
/// chips a pass, the load at which one pocket in a hundred lets go, 10 ft/h or the scenario's least progress,
/// slots half packed, 1 s of film; and the scenario's weight limit and pump. Sources in suitability.hpp.
WindowLimits usual_window_limits(const scenario::Scenario& scenario);

/// A weight and a speed, to be tried at a flow.
struct WindowSetting {
  double weight = 0.0;           // N on the bit, as stated
  double rotary_speed = 0.0;     // rev/s
  double flow = 0.0;             // m3/s as a plan states it
  bool keep_feed_limit = false;  // with it the weight may not be reached
};

/// One setting tried in one layer. SI; NaN where nothing was drilled.
struct WindowCell {
  double weight = 0.0;                      // N, asked for
  double rotary_speed = 0.0;                // rev/s
  double weight_reached = 0.0;              // N, mean: less where a feed limit holds the bit back
  double rate_of_penetration = 0.0;         // m/s, mean of the trial; 0: does not drill
  double hottest_flat = 0.0;                // K
  double wear_per_metre = 0.0;              // m of worn height a metre, of the cutter that wears most
  double metres_to_allowance = 0.0;         // m; infinity for no wear
  double chips_per_metre = 0.0;             // 1/m, expected over all cutters
  double chips_per_pass = 0.0;              // 1, in one pass of the whole layer at that rate
  double load_share = 0.0;                  // 1, greatest of pockets, bonds and blades
  double solids_fraction = 0.0;             // 1, in the junk slots, mean
  double packing = 0.0;                     // 1, that over the packed fraction
  double rotating_time = 0.0;               // s, of the trial
  double time_in_film = 0.0;                // s of it, longest of any cutter
  bool ran_dry = false;                     // the last water at the bottom boiled away
  bool stopped = false;                     // stopped drilling (or lost a blade) before the trial's end
  double depth_of_cut = 0.0;                // m/rev, at the end
  double depth_to_rub = 0.0;                // m/rev at which blades bear, at the start; infinity: they cannot
  double blade_share = 0.0;                 // 1, of the weight, carried by rubbing blades, greatest
  double torque = 0.0;                      // N m, mean
  double pressure = 0.0;                    // Pa that the whole flow takes through ports and slots, greatest
  std::optional<double> cost_per_metre;     // money a metre, where bit and rig have a price
  WindowLimit limit = WindowLimit::inside;  // the one most exceeded
  /// How far each limit is used up, by its number: 1 is at the limit, more is past it. See limit_uses.
  std::array<double, window_limit_count> uses{};
  std::string failure;  // why the trial could not be calculated, empty if it could
  bool inside() const { return limit == WindowLimit::inside; }
  double use(WindowLimit which) const { return uses[static_cast<std::size_t>(which)]; }
  /// It is the light end that this setting is past: more weight may help, less will not.
  bool too_light() const {
    return limit == WindowLimit::progress || (limit == WindowLimit::standstill && !stopped);
  }
};

/// Drilled for this long, so that heat and cuttings settle (cutters settle in seconds, the body in minutes)
/// [asm].
inline constexpr double window_trial = 600.0;  // s

/// The scenario with one setting in every interval of its plan: stated weight, no pull-down or holdback.
scenario::Scenario at_setting(const scenario::Scenario& scenario, const WindowSetting& setting);

/// Tries a scenario's own plan in one layer alone, for `seconds` of drilling (see layer_hole) with the bit in
/// `condition`, at a relative tolerance of 1e-2 or the scenario's where that is coarser, and judges it by
/// `limits`. What the models throw becomes the cell's failure; only a layer that is not there throws
/// (std::out_of_range). Pure: the same input gives the same bits.
///
/// How far a limit is used is measured so that limits of different kind can be compared [asm]:
///   heat      (T - T_inlet)/(T_limit - T_inlet), the share of the rise that is allowed
///   chips     (expected/limit)^(1/m) with the Weibull modulus m of the edges: the ratio of stresses, since a
///             hazard goes with the m-th power of stress [pub: Weibull, J. Appl. Mech. 18, 1951]
///   wear, progress  limit over value;  retention, packing, weight, pressure  value over limit
///   film      seconds over the limit's; past it 1 and the share of the trial that goes beyond
///   rubbing   d/d_rub while blades hang free; weight over what the cutters carry of it once they bear
///   standstill  0 or infinity
WindowCell try_plan(const scenario::Scenario& scenario, int layer, const simulation::BitCondition& condition,
                    const WindowLimits& limits, double seconds);

/// The same at a setting.
WindowCell try_setting(const scenario::Scenario& scenario, int layer,
                       const simulation::BitCondition& condition, const WindowLimits& limits,
                       const WindowSetting& setting, double seconds);

}  // namespace dullcast::analysis
