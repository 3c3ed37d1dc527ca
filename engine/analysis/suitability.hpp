#pragma once

#include <string>
#include <vector>

#include "engine/base/display.hpp"
#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::analysis {

/// What one layer of the column did to the bit: all its passages of a run put together. Mishaps of the run
/// (upsets) that fell in it are in it too.
struct LayerGround {
  int layer = 0;
  std::string rock;
  double top = 0.0, bottom = 0.0;         // m
  int passes = 0;                         // holes that entered it
  double drilled = 0.0;                   // m in all
  double rotating_time = 0.0;             // s in all
  double mean_rate_of_penetration = 0.0;  // m/s
  double hottest_flat = 0.0;              // K
  int hottest_cutter = 0;
  /// m of worn height a metre drilled, of the cutter that wears most; the median of the passes, so that a
  /// chip drawn in one of them is not taken for abrasion.
  double wear_per_metre = 0.0;
  double chips_per_pass = 0.0;    // 1, expected over all cutters, mean of the passes
  double chip_probability = 0.0;  // 1, greatest of one cutter in one pass
  double load_share = 0.0;        // 1, greatest load of a pocket, bond or blade over its median strength
  double solids_fraction = 0.0;   // 1, in the junk slots, mean over rotating time
  double lifted_share = 1.0;      // 1, least
  double uphole_velocity = 0.0;   // m/s at the plan's flow, least
  double cleaning_index = 0.0;    // 1, of that flow at the mean rate of penetration, least
  double balling_risk = 0.0;      // 1, greatest
  double time_in_film = 0.0;      // s, longest in one pass
  bool stopped = false;           // the bit stopped drilling in it
};

/// One entry per layer of the column, in its order; holes up to the one in which rework fell due, so that a
/// bit run past its end does not speak for the ground.
std::vector<LayerGround> ground_of(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome);

enum class Verdict { not_reached, go, with_care, wrong_bit };
const char* verdict_words(Verdict verdict);

/// What a verdict rests on.
enum class Concern { heat, wear, chips, retention, progress, standstill, packing, cleaning, balling, steam };

struct Finding {
  Concern concern = Concern::heat;
  Verdict verdict = Verdict::go;
  double value = 0.0;  // SI, what was computed
  double limit = 0.0;  // SI, what it was held against
};

struct LayerSuitability {
  LayerGround ground;
  Verdict verdict = Verdict::not_reached;  // the worst finding's
  std::vector<Finding> findings;           // only those worse than go, worst first
  double metres_to_allowance = 0.0;  // m of this layer that use up the wear allowance; infinity for none
};

/// The thresholds. They judge an ordinary small bit on an ordinary rig; a shop with its own figures should
/// read the figures beside the verdict rather than the verdict.
namespace suitability_limit {
/// Diamond wears faster above the scenario's acceleration temperature (350 C in the library, Glowka & Stone,
/// SPE J. 25(2), 1985 [pub]): care. Cobalt-bearing diamond is ruined from 700 C [pub, same]: wrong bit.
inline constexpr double damage_temperature = 700.0 + 273.15;  // K
/// Metres of the layer that use up the wear allowance: a bit that lasts less than about four wells of 120 m
/// in this ground needs care, one that does not see the bottom of the first is the wrong bit [asm].
inline constexpr double care_metres = 500.0, wrong_metres = 100.0;  // m
/// Expected chips a pass: one in twenty passes, one every pass [asm].
inline constexpr double care_chips = 0.05, wrong_chips = 1.0;
/// Probability that the most loaded pocket of ordinary spread lets go: one in a hundred, one in two (the load
/// is the median strength) [asm].
inline constexpr double care_retention_probability = 0.01;
/// Progress: below 10 ft/h a drag bit rubs more than it cuts, below 2 ft/h another bit is the better one [cp
/// for the first, asm for the second].
inline constexpr double care_progress = 10.0 * 0.3048 / 3600.0, wrong_progress = 2.0 * 0.3048 / 3600.0;
/// Solids in the junk slots over the packed fraction, mean: half packed [asm].
inline constexpr double care_packing = 0.5;
/// Balling risk on its scale from 0 to 1 [asm].
inline constexpr double care_balling = 0.5;
/// Seconds of one pass under a film of steam [asm].
inline constexpr double care_film = 1.0;
}  // namespace suitability_limit

/// Worn height that rework allows, m: the worn_height rule, or the share of the least exposure at which
/// repair ends.
double wear_allowance(const scenario::Scenario& scenario);

/// Load over median strength that one pocket in a hundred does not bear (care_retention_probability), of the
/// wider of the lot's and the body's spread of ln(strength).
double care_load_share(const scenario::Scenario& scenario);

/// Whether the ground suits the bit, layer by layer, from the figures alone: no rock is judged by its name.
/// Dirty holes, balling and steam ask for care but do not make a bit the wrong one: they answer to the
/// driller's settings. Pure: the same outcome gives the same verdicts.
std::vector<LayerSuitability> suitability(const scenario::Scenario& scenario,
                                          const simulation::RunOutcome& outcome);

/// A finding as a short sentence with its numbers.
std::string finding_words(const LayerSuitability& layer, const Finding& finding, base::ShownUnits units);

/// All that a verdict rests on: its findings' sentences, or for `go` the figures that say so.
std::vector<std::string> reasons(const LayerSuitability& layer, base::ShownUnits units);

}  // namespace dullcast::analysis
