#pragma once

#include <string>
#include <vector>

#include "engine/input/scenario_reader.hpp"
#include "engine/shop/shop_plan.hpp"

namespace dullcast::shop {

/// Reads a shop's plan: a file of YAML, the tables and the scenarios that it names, and how its bits are, for
/// which results are read and records of shelves drilled again (a fraction of a second each). Names of files
/// start from the plan's folder. Throws ScenarioErrors with all mistakes of all files, each with its place;
/// what is unwise but possible is appended to `warnings`. Throws std::runtime_error on a machine without time
/// zones. Not for several threads with one reader.
ShopPlan read_shop_plan(const std::string& path, const input::ScenarioReader& reader,
                        std::vector<input::Warning>& warnings);

/// The same of a text; `file` is the name for messages and the place that relative paths start from.
ShopPlan read_shop_plan_text(const std::string& text, const std::string& file,
                             const input::ScenarioReader& reader, std::vector<input::Warning>& warnings);

/// The texts of a plan's files one after another, each after a line "==== " and its name.
std::string texts_together(const ShopPlan& plan);

}  // namespace dullcast::shop
