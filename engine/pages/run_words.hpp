#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/base/words.hpp"
#include "engine/scenario/scenario.hpp"

/// What reports and pages say of a run's figures, a few words each.
namespace dullcast::pages {

/// A rule of the scenario in words.
std::string rule_words(const std::string& rule, const scenario::ReworkRules& rules);
/// "cutter 3", "cutters 3, 4 and 9"; cutters count from 0 inside and from 1 on paper.
std::string cutter_words(const std::vector<int>& cutters);
using base::spoken;
/// Tenths of an eighth: finer than anyone can read off a bit.
std::string grade_words(const std::optional<double>& grade);
std::string holes_words(int holes);
/// A chance or share to two figures: "3 %", "0.25 %", "under 0.01 %".
std::string percent_words(double share);
/// A time as a person says it: "45 s", "12 min".
std::string seconds_words(double seconds);

/// "15 deg" of radians.
std::string angle_words(double angle);

}  // namespace dullcast::pages
