#pragma once

#include <string>

#include "engine/scenario/records.hpp"

namespace dullcast::pages {

/// The pattern that a rock is drawn with: "clay", "shale", "siltstone", "marl", "limestone", "dolomite",
/// "sandstone", "hard_sandstone", "quartzite", "granite", "basalt", "chert", "gravel", "gravelly_sand",
/// "sand", "coal", or "plain" where its name says nothing. By the words of its name; what a name says of
/// chert or gravel comes first, since that is what a picture has to warn of. Pictures only: no figure depends
/// on it.
std::string rock_pattern(const scenario::RockRecord& rock);

}  // namespace dullcast::pages
