#include "engine/shop/hole_scenarios.hpp"

#include <filesystem>

#include "engine/analysis/bit_bill.hpp"
#include "engine/base/words.hpp"
#include "engine/input/bit_reader.hpp"

namespace dullcast::shop {
namespace {

/// What a plan may add to the library for its designs.
constexpr const char* own_sections[] = {"grades", "lots", "bodies"};

void put(input::YamlValue& tree, const char* key, const input::YamlValue& value,
         const scenario::Location& location) {
  if (input::YamlEntry* known = tree.find(key))
    known->value = value;
  else
    tree.entries.push_back({key, location, value});
}

}  // namespace

const input::RecordBase* HoleScenarios::of(input::MapReader& hole, std::size_t design) {
  const auto name = hole.word("scenario");
  if (!name) {
    if (!hole.has("scenario"))
      hole.error("scenario", "is missing; write the file of the scenario it is drilled by");
    return nullptr;
  }
  if (design >= designs_.size() || !designs_[design].good) return nullptr;
  const std::string file = input::path_beside(*name, plan_.folder);
  const auto met = bases_.find({file, design});
  if (met != bases_.end()) return met->second.get();
  return (bases_[{file, design}] = read(hole, file, designs_[design])).get();
}

/// The file as a tree, without what belongs to its own bit; null where it cannot be used.
const input::YamlValue* HoleScenarios::parsed(input::MapReader& hole, const std::string& file) {
  const auto met = trees_.find(file);
  if (met != trees_.end()) return met->second.get();
  std::unique_ptr<input::YamlValue>& tree = trees_[file];
  const auto text = plan_.text_of(hole, "scenario", file);
  if (!text) return nullptr;
  try {
    tree = std::make_unique<input::YamlValue>(input::ScenarioReader::parse(*text, file));
  } catch (const input::ScenarioErrors& failure) {
    plan_.keep(failure);
    return nullptr;
  }
  if (tree->find("calibrate_from")) {
    hole.error(
        "scenario",
        "learns from one inspected bit (calibrate_from), which a plan of many bits cannot; put the bit on "
        "a shelf and let the scenario read what that teaches (learned)");
    tree.reset();
  }
  return tree.get();
}

std::unique_ptr<input::RecordBase> HoleScenarios::read(input::MapReader& hole, const std::string& file,
                                                       const WrittenDesign& design) {
  const input::YamlValue* parsed_tree = parsed(hole, file);
  if (!parsed_tree) return nullptr;
  input::YamlValue tree = *parsed_tree;
  put(tree, "bit", design.bit, design.location);
  for (const char* section : own_sections) {
    const input::YamlEntry* own = root_.find(section);
    if (!own) continue;
    const input::YamlEntry* its = tree.find(section);
    put(tree, section, its ? input::laid_over(its->value, own->value) : own->value, own->location);
  }
  // What the shop's own bits have taught counts wherever a scenario says nothing of its own.
  if (const input::YamlEntry* learned = root_.find("learned");
      learned && learned->value.is_scalar() && !tree.find("learned")) {
    input::YamlValue name = learned->value;
    name.text = std::filesystem::absolute(input::path_beside(name.text, plan_.folder)).lexically_normal();
    std::error_code none;  // one that is not there is told of the plan
    if (std::filesystem::is_regular_file(name.text, none)) put(tree, "learned", name, learned->location);
  }
  try {
    std::vector<input::Warning> unwise;
    auto base = input::record_base_of(tree, file, plan_.scenarios, unwise);
    plan_.keep(unwise);
    check_money(hole, file, base->scenario.costs);
    return base;
  } catch (const input::ScenarioErrors& failure) {
    plan_.keep(failure);
    return nullptr;
  }
}

void HoleScenarios::check_money(input::MapReader& hole, const std::string& file,
                                const scenario::Costs& costs) {
  if (!money_told_.emplace(file, true).second) return;
  const std::vector<std::string> missing = analysis::missing_prices(costs);
  if (!missing.empty()) {
    std::string keys;
    for (const std::string& key : missing) keys += (keys.empty() ? "" : ", ") + key;
    hole.warn("scenario", "has no price under costs for " + keys + ": what the plan costs is not told");
  }
  if (currency_of_.empty()) {
    currency_ = costs.currency;
    currency_of_ = file;
  } else if (costs.currency != currency_) {
    hole.error("scenario", "has its costs in " + costs.currency + ", and " + currency_of_ + " in " +
                               currency_ + "; write them in one currency");
  }
}

}  // namespace dullcast::shop
