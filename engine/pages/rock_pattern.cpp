#include "engine/pages/rock_pattern.hpp"

#include <array>
#include <utility>

namespace dullcast::pages {

std::string rock_pattern(const scenario::RockRecord& rock) {
  // In this order: what a name says of chert or gravel is what its picture has to warn of.
  static constexpr std::array<std::pair<const char*, const char*>, 29> patterns{{
      {"chert", "chert"},         {"flint", "chert"},         {"gravelly_sand", "gravelly_sand"},
      {"gravel", "gravel"},       {"conglomerate", "gravel"}, {"cobble", "gravel"},
      {"boulder", "gravel"},      {"siltstone", "siltstone"}, {"silt", "siltstone"},
      {"mudstone", "shale"},      {"claystone", "shale"},     {"shale", "shale"},
      {"slate", "shale"},         {"clay", "clay"},           {"marl", "marl"},
      {"chalk", "limestone"},     {"limestone", "limestone"}, {"dolomite", "dolomite"},
      {"dolostone", "dolomite"},  {"quartzite", "quartzite"}, {"hard_sandstone", "hard_sandstone"},
      {"sandstone", "sandstone"}, {"sand", "sand"},           {"granite", "granite"},
      {"gneiss", "granite"},      {"basalt", "basalt"},       {"tuff", "basalt"},
      {"lava", "basalt"},         {"coal", "coal"},
  }};
  for (const auto& [word, pattern] : patterns) {
    if (rock.name.find(word) != std::string::npos) return pattern;
  }
  return "plain";
}

}  // namespace dullcast::pages
