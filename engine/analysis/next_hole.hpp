#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "engine/analysis/drawn_hole.hpp"
#include "engine/statistics/confidence.hpp"

/// Run a bit again, rework it first, or scrap it: its next hole under each choice.
namespace dullcast::analysis {

enum class BitChoice : std::size_t { run_again, rework_first, new_bit };
inline constexpr std::size_t bit_choices = 3;
/// "run_again", "rework_first", "new_bit".
const char* bit_choice_name(BitChoice choice);

/// A mean over draws, its standard error, and the 10 % and 90 % points of the draws (order statistics).
struct DrawnMoney {
  double mean = 0.0, error = 0.0, low = 0.0, high = 0.0;
};

struct ChoiceOutlook {
  int finished = 0;               // draws in which the bit finished the hole
  double probability = 0.0;       // 1, of that
  statistics::Interval interval;  // 95 %, exact
  HoleCost mean;                  // of each line
  DrawnMoney cost;
  /// What it costs more than the cheapest choice, and the standard error of that, by the differences draw by
  /// draw; 0 for the cheapest.
  double more = 0.0, more_error = 0.0;
};

struct NextHole {
  BitBill now;                        // before anything is chosen
  std::vector<std::string> unpriced;  // keys of costs that are missing: no costs are worked out then
  int draws = 0;                      // of every choice that were run, and have their share in probabilities
  int failed = 0;                     // could not be run
  std::string first_failure;          // what the first of those said
  int endless = 0;                    // of `draws`: some choice has no end there, so none is priced
  /// rework_first is none where nothing is due and where what is due is scrap.
  std::array<std::optional<ChoiceOutlook>, bit_choices> choices;
  /// The cheapest choice and the next one; none without prices, or with fewer than two priced draws.
  std::optional<BitChoice> cheapest, runner_up;
  const std::optional<ChoiceOutlook>& of(BitChoice choice) const {
    return choices[static_cast<std::size_t>(choice)];
  }
  /// Whether the runner-up costs more by less than two standard errors. Asked only where there is one.
  bool too_near_to_call() const { return !(of(*runner_up)->more > 2.0 * of(*runner_up)->more_error); }
};

/// The draws of each choice's hole; none for a choice that is not there.
using ChoiceDraws = std::array<std::optional<std::vector<DrawnHole>>, bit_choices>;

/// What the scenario's bit costs now, and each choice's draws of the hole, made into figures: to run_again's
/// costs nothing is added before the hole, to rework_first's the repair, to new_bit's the price of the bit
/// that replaces the scrapped one; off all of them goes what the bit's condition costs already, so that
/// run_again bears the damage that running on does and new_bit the value that is scrapped. Draws of unequal
/// number count as far as all go. Where no draw could be run, throws what the first one threw.
NextHole compare_choices(const scenario::Scenario& scenario, const ChoiceDraws& draws);

/// Drills the scenario's hole by each choice (drawn_holes) and compares them. The bit is taken as the
/// scenario starts it; in each draw it is taken out once it is too slow beside a new one
/// (least_progress_beside). Throws std::invalid_argument for fewer than two draws.
NextHole next_hole(const scenario::Scenario& scenario, const HoleDrawOptions& options,
                   const ForecastProgress& progress = {});

}  // namespace dullcast::analysis
