#pragma once

#include "engine/storage/fields.hpp"

/// Datasets that describe the bit as the run began and the scenario's rework rules.
namespace dullcast::storage::result_format {

Fields<scenario::BitRecord> bit_fields();
Fields<scenario::BitBuild> build_fields();
Fields<geometry::BitLayout> layout_fields();
Fields<geometry::CutterShape> cutter_fields();
Fields<scenario::ReworkRules> rework_rule_fields();

}  // namespace dullcast::storage::result_format
