#pragma once

#include <optional>

#include "engine/analysis/next_hole.hpp"

namespace dullcast::analysis {

/// How worn the found bit would be, its pattern over the cutters kept. m.
struct WornSoFar {
  double greatest = 0.0, mean = 0.0;  // over the cutters that are there
};

/// At which wear "run it again" stops being the cheapest choice.
struct WearFlip {
  enum class Kind {
    flips,           // at `at`
    never,           // it is the cheapest up to the usable height
    from_the_start,  // it is not the cheapest even without any wear: what else was found decides
    not_priced       // prices are missing, or no draws are left
  };
  Kind kind = Kind::not_priced;
  WornSoFar as_found, usable;   // now; and with the worst cutter at its usable height
  std::optional<WornSoFar> at;  // between it and the next wear that was tried
  /// The most wear below `at` at which it is the cheapest by more than two standard errors, and the least
  /// above at which it is not by as much; none where none that was tried is.
  std::optional<WornSoFar> clear_below, clear_above;
  /// Wear beyond `at` where it is the cheapest again, as a bit is that is past repair anyway.
  std::optional<WornSoFar> cheapest_again;
};

/// Multiplies the worn heights that the scenario starts with by one factor, from 0 to where the worst
/// cutter's is its usable height (beyond_repair_share of its exposure), at nine even steps and then, where
/// the answer changes first, by halves down to 1/128 of that; what is found else stays. Where no wear was
/// found, all cutters are taken to wear by the same share of their exposure. Each wear is judged by the same
/// draws (next_hole). Throws what next_hole throws.
WearFlip wear_flip(const scenario::Scenario& scenario, const HoleDrawOptions& options,
                   const ForecastProgress& progress = {});

}  // namespace dullcast::analysis
