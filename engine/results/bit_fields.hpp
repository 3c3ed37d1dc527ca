#pragma once

#include "engine/results/fields.hpp"

/// Datasets that describe the bit as the run began and the scenario's rework rules.
namespace dullcast::result_format {

Fields<BitRecord> bit_fields();
Fields<BitBuild> build_fields();
Fields<BitLayout> layout_fields();
Fields<CutterShape> cutter_fields();
Fields<ReworkRules> rework_rule_fields();

}  // namespace dullcast::result_format
