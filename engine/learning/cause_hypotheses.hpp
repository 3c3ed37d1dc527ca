#pragma once

#include <functional>
#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"

namespace dullcast::learning {

/// One way in which a bit's run may have gone otherwise than its record says.
struct CauseLevel {
  std::string words;                                // "a third of the flow told"
  double weight = 1.0;                              // among the cause's levels; they sum to 1
  std::function<void(scenario::Scenario&)> change;  // of the run
};

/// A likely cause of how a bit came back.
struct Cause {
  std::string name;   // a word for the command line
  std::string words;  // "heat"
  double odds = 1.0;  // before anything was looked at, beside the others'
  std::vector<CauseLevel> levels;
};

/// The causes that are told apart, all numbers [asm], to be set by the shop:
/// - plain (odds 50): the run as told;
/// - heat (15): the pump off for 5, 15 or 45 minutes on bottom, once, half way down the hardest layer of the
///   last hole, where the bit is dullest. (Less flow alone is not among the levels: at the plans of shallow
///   wells a third of it moves wear by hundredths and damages nothing, and a tenth packs the slots, which is
///   `cleaning`.)
/// - gravel (10): stones of 30 mm and 180 MPa in a quarter of the softest layer; in a twentieth of every
///   layer;
/// - weight (10): 1.5 and 2 times the weight told, and the feed let go as much faster;
/// - lot (10): edges, bonds and brazes 0.7 and 0.5 as strong as their lot's;
/// - cleaning (5): 0.7 of the flow and 0.6 of the drilling efficiency; half of the flow and 0.4 of it, so
///   that cuttings are ground again and slots pack.
/// Levels of a cause weigh alike. Plain comes first.
std::vector<Cause> usual_causes();

}  // namespace dullcast::learning
