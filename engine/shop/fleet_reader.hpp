#pragma once

#include "engine/shop/plan_reading.hpp"

namespace dullcast::shop {

/// Reads `rigs:`; `off` are the shop's days off, which a rig without its own has too.
std::vector<Rig> read_rigs(input::MapReader& top, const std::vector<DaysOff>& off, PlanReading& plan);

/// A design, and its bit as the plan writes it, to be put into scenarios.
struct WrittenDesign {
  Design design;
  input::YamlValue bit;
  scenario::Location location;
  bool good = false;  // its bit could be read
};

/// Reads `designs:`. Reports bits that are not new, and warns of cutters that none of `cutters` is.
std::vector<WrittenDesign> read_designs(input::MapReader& top, const std::vector<CutterStock>& cutters,
                                        PlanReading& plan);

/// Reads `bits:`, each with the condition it is in: new, as an earlier result left it, as it was found (which
/// drills its record's run), or as stated.
std::vector<FleetBit> read_bits(input::MapReader& top, const std::vector<WrittenDesign>& designs,
                                const std::vector<Rig>& rigs, PlanReading& plan);

}  // namespace dullcast::shop
