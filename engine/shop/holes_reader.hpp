#pragma once

#include "engine/shop/fleet_reader.hpp"

namespace dullcast::shop {

/// Reads `holes:`, each with the scenario it is drilled by, in which the design's bit stands for the
/// scenario's own. Sorted by when they are booked; those booked outside the plan's days are left out, which
/// is warned of. `currency` is that of all scenarios.
std::vector<BookedHole> read_holes(input::MapReader& top, const std::vector<WrittenDesign>& designs,
                                   const std::vector<Rig>& rigs, const std::vector<FleetBit>& bits,
                                   const input::YamlValue& root, PlanReading& plan, std::string& currency);

}  // namespace dullcast::shop
