#pragma once

#include "engine/scenario/records.hpp"

namespace dullcast::scenario {

/// Cerchar abrasivity of stones of which only the strength (Pa) is known: 1 per 50 MPa, at most 6, from 0.6
/// to 1.4 times that [asm]. The index follows strength more than minerals (Al-Ameen & Waller, Eng. Geol. 36,
/// 1994 [pub]); it meets this library's quartzite (220 MPa, 5.0), granite (180 MPa, 4.3) and basalt (200 MPa,
/// 3.6) within a fifth. Stones of limestone or of fine chert scratch less: state theirs.
Quantity usual_stone_abrasivity(const Quantity& strength);

/// Gives a rock whose stones have no abrasivity stated (0) the usual one.
void fill_stone_abrasivity(RockRecord& rock);

}  // namespace dullcast::scenario
