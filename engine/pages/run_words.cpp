#include "engine/pages/run_words.hpp"

#include <cmath>
#include <iomanip>
#include <numbers>
#include <sstream>

#include "engine/base/display.hpp"

namespace dullcast::pages {

std::string rule_words(const std::string& rule, const scenario::ReworkRules& rules) {
  if (rule == "worn_height" && rules.worn_height) {
    return "a cutter worn " + base::show(*rules.worn_height, base::shown::length, base::ShownUnits::both);
  }
  if (rule == "outer_dull_grade" && rules.outer_dull_grade) {
    return "outer dull grade " + base::show_number(*rules.outer_dull_grade, 2);
  }
  if (rule == "heat_damage" && rules.heat_damage)
    return "heat damage " + base::show_number(*rules.heat_damage, 2);
  if (rule == "speed_share_of_new" && rules.speed_share_of_new) {
    return "drilling at " + base::show_number(100.0 * *rules.speed_share_of_new, 2) +
           " % of a new bit's speed";
  }
  if (rule == "chip_probability" && rules.chip_probability)
    return "a cutter's edge chipped with a chance of " + percent_words(*rules.chip_probability);
  if (rule == "gauge_loss" && rules.gauge_loss)
    return "hole under gauge by " +
           base::show(*rules.gauge_loss, base::shown::length, base::ShownUnits::both);
  if (rule == "lost_cutters" && rules.lost_cutters) {
    const std::string count = base::show_number(*rules.lost_cutters, 2);
    return count + (count == "1" ? " cutter lost" : " cutters lost");
  }
  return rule;
}

std::string cutter_words(const std::vector<int>& cutters) {
  if (cutters.empty()) return "no one cutter";
  std::string words = cutters.size() == 1 ? "cutter " : "cutters ";
  for (std::size_t k = 0; k < cutters.size(); ++k) {
    if (k > 0) words += k + 1 == cutters.size() ? " and " : ", ";
    words += std::to_string(cutters[k] + 1);
  }
  return words;
}

std::string grade_words(const std::optional<double>& grade) {
  if (!grade) return "no cutters there";
  std::ostringstream words;
  words << std::fixed << std::setprecision(1) << *grade;
  return words.str();
}

std::string holes_words(int holes) {
  return std::to_string(holes) + (holes == 1 ? " hole" : " holes");
}

std::string percent_words(double share) {
  if (share > 0.0 && share < 1e-4) return "under 0.01 %";
  if (share < 1.0 && share > 0.99) return "over 99 %";
  return base::show_number(100.0 * share, 2) + " %";
}

std::string seconds_words(double seconds) {
  if (std::isfinite(seconds) && seconds >= 119.5)
    return base::show_number(std::round(seconds / 60.0), 3) + " min";
  return base::show_number(seconds >= 10.0 ? std::round(seconds) : seconds, 2) + " s";
}

std::string angle_words(double angle) {
  return base::show_number(angle * 180.0 / std::numbers::pi) + " deg";
}

}  // namespace dullcast::pages
