#include "engine/sweep/unmoved_paths.hpp"

#include <algorithm>
#include <array>
#include <string_view>

#include "engine/input/yaml_paths.hpp"

namespace dullcast::sweep {
namespace {

/// What a sweep's table has no column of: only a bit's price and a rig's cost go into its cost of a metre.
constexpr std::array<std::string_view, 8> no_outcome{
    "costs.rework",      "costs.replacement",       "costs.cutter", "costs.pocket",
    "costs.fuel_energy", "costs.engine_efficiency", "weight_limit", "stepping.output_every"};

}  // namespace

std::string why_not_moved(const std::string& path) {
  const auto steps = input::steps_of_path(path);
  if (steps.back() == "continues")
    return "goes on from an earlier result, which runs of a sweep cannot; move bit.starting_wear and the "
           "other "
           "starting_ keys instead";
  if (steps.front() == "calibrate_from")
    return "learns from an inspected bit, which runs of a sweep do not; draw abrasion_coefficient, or move "
           "models.abrasion_coefficient";
  if (path == "costs.currency") return "is the word that all money is in, the same in every run";
  if (path == "chance.seed") return "follows from the plan's seed and the draw; move the plan's seed instead";
  const bool words_only = path == "title" || steps.back() == "note" || path == "bit.name";
  if (words_only) return "is text for people, and all runs would be alike";
  return "";
}

bool makes_no_difference(const std::string& path) {
  return input::steps_of_path(path).front() == "other_method" ||
         std::find(no_outcome.begin(), no_outcome.end(), path) != no_outcome.end();
}

}  // namespace dullcast::sweep
