#pragma once

#include "models/common/constants.hpp"

namespace dullcast::wear {

/// Arrhenius damage of a diamond table: rate = (1/life_0) exp(-B (1/T - 1/T_0)), damage 1 = ruined.
/// The two lives say what the constants mean: seconds that cobalt-bearing diamond lasts at 750 C and at 700
/// C, the band in which it fails (Glowka & Stone, SPE J. 25(2), 1985 [pub]); the lives themselves are [asm].
/// The leached layer lasts at its limit, towards 1,200 C [pub], as long as cobalt-bearing diamond at 750 C,
/// with the same B.
struct HeatDamageLaw {
  double life_at_750 = 0.0;    // s
  double life_at_700 = 0.0;    // s, longer
  double leached_limit = 0.0;  // K
};

/// Where cobalt-bearing diamond lasts life_at_750, K.
inline constexpr double kelvin_at_750 = 750.0 + celsius_zero;

/// Diamond lasts at least so many times longer at 700 C than at 750 C [asm]: with less it would not outlast
/// drilling for sure (with three times, 60 s at 750 C are nearly two years at 350 C, with once 60 s).
inline constexpr double least_life_ratio = 3.0;

/// The law from its numbers, s and K. Lives that are known apart from each other may come out nearer than
/// least_life_ratio, or the wrong way round: that at 700 C is held to it then.
HeatDamageLaw heat_damage_law(double life_at_750, double life_at_700, double leached_limit);

/// Damage per second of cobalt-bearing diamond at T (K). Bounded above 3,000 K.
double cobalt_damage_rate(const HeatDamageLaw& law, double T);

/// Damage per second of leached diamond at T (K).
double leached_damage_rate(const HeatDamageLaw& law, double T);

/// Damage rate of a table whose flat is at T_w (K) under heat flux q (W/m2) into diamond of conductivity k
/// (W/(m K)): the mean over the flat's diamond. What is leached of it, a share 0 .. 1, is as bad as the worse
/// of the leached layer at T_w and the cobalt-bearing diamond `depth` (m) under it, where it is
/// T_w - q depth/k; for the rest the cobalt-bearing limit holds at T_w.
double table_damage_rate(const HeatDamageLaw& law, double T_w, double q, double leached_share, double depth,
                         double conductivity);

}  // namespace dullcast::wear
