#pragma once

#include <string>
#include <vector>

namespace dullcast::input {

/// One value in which scenarios differ. A long list of one kind (the cutters of a bit laid out anew, say) is
/// one difference, told by how many values it holds.
struct InputDifference {
  std::string key;                  // as --set takes it: "plan.0.rotary_speed"
  std::vector<std::string> values;  // as text, one a scenario; empty where it has none
};

/// What differs between scenarios, from their resolved texts (every value written out, SI), in the order of
/// the first text that has it. Titles, remarks, marks and sources are no values. An uncertain number is one
/// value: its central one, with low and high behind it. Records that only one scenario uses (a rock of
/// another column) are one difference each. Throws ScenarioErrors for a text that is no YAML.
std::vector<InputDifference> input_differences(const std::vector<std::string>& resolved_texts);

}  // namespace dullcast::input
