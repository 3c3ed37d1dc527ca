#pragma once

#include "engine/input/map_reader.hpp"
#include "engine/scenario/inspected_bit.hpp"

namespace dullcast::input {

/// Reads the grade of a zone under a key: a whole number from 0 to 8, or "at least" before it. Nothing when
/// it is absent or wrong, which is reported.
std::optional<scenario::GradeSeen> read_grade(MapReader& map, std::string_view key);

/// Reads `dull_grading:`, the eight fields of the trade's open system of dull grading for fixed-cutter bits
/// (IADC, SPE 23939, 1992 [pub]; its codes as listed here from memory): inner and outer rows 0 to 8, dull
/// characteristic, location, X for bearings, gauge (I, or sixteenths of an inch under), other
/// characteristic, reason pulled, parted by blanks, commas or hyphens. What they say goes into `bit`; reports
/// what the system does not know. Returns whether there was such a key.
bool read_dull_grading(MapReader& map, scenario::InspectedBit& bit);

}  // namespace dullcast::input
