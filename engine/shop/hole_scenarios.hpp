#pragma once

#include <map>
#include <memory>
#include <string>

#include "engine/input/bit_record_reader.hpp"
#include "engine/shop/fleet_reader.hpp"

namespace dullcast::shop {

/// The scenarios that holes are drilled by, each file parsed once and read once with each design's bit in the
/// place of its own.
class HoleScenarios {
 public:
  /// `root` is the plan, whose own grades, lots and bodies count before those of scenarios.
  HoleScenarios(const std::vector<WrittenDesign>& designs, const input::YamlValue& root, PlanReading& plan)
      : designs_(designs), root_(root), plan_(plan) {}

  /// The scenario that a hole names, with a design's bit; null where it cannot be used, which is kept or, for
  /// what a shop's plan cannot have, reported at the hole that names it first.
  const input::RecordBase* of(input::MapReader& hole, std::size_t design);

  /// The currency that all scenarios read so far have; "$" before the first.
  const std::string& currency() const { return currency_; }

 private:
  const input::YamlValue* parsed(input::MapReader& hole, const std::string& file);
  std::unique_ptr<input::RecordBase> read(input::MapReader& hole, const std::string& file,
                                          const WrittenDesign& design);
  void check_money(input::MapReader& hole, const std::string& file, const scenario::Costs& costs);

  const std::vector<WrittenDesign>& designs_;
  const input::YamlValue& root_;
  PlanReading& plan_;
  std::map<std::string, std::unique_ptr<input::YamlValue>> trees_;
  std::map<std::pair<std::string, std::size_t>, std::unique_ptr<input::RecordBase>> bases_;
  std::map<std::string, bool> money_told_;
  std::string currency_ = "$", currency_of_;  // and the file that it was first read in
};

}  // namespace dullcast::shop
