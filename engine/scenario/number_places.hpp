#pragma once

#include <functional>
#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"

namespace dullcast::scenario {

/// One uncertain number's place in any scenario of the same shape (as many layers and kinds of cutters).
using QuantityPlace = std::function<Quantity&(Scenario&)>;

/// For each name the places that for_each_number carries a change of that number to in this scenario; none
/// for a name it does not visit. Of equal names the last has the places, since it has the last word.
///
/// They hold for a scenario with other values as long as the rocks' numbers stay alike where they are alike
/// and unlike where they are not, for by that for_each_number names the layers' own numbers.
std::vector<std::vector<QuantityPlace>> places_of_numbers(const Scenario& scenario,
                                                          const std::vector<std::string>& names);

/// Carries the edge's radius, a number of the models, to the shapes of the cutters, as for_each_number does.
void carry_edge_radius(Scenario& scenario);

}  // namespace dullcast::scenario
