#pragma once

#include "engine/learning/laplace.hpp"

namespace dullcast::learning {

struct FitOptions {
  ReadingLaw law;  // but for bit_spread, which is the library's
  int threads = 1;
  RunsTold told;  // runs of the engine, done and expected in all
};

/// What a shelf has taught.
struct ShelfFit {
  ShelfNumbers numbers;
  ReadingLaw law;                      // with the spread from bit to bit as it was before
  std::vector<bool> worth;             // which numbers a run for every bit was spent on
  std::vector<BitResponse> before;     // of each bit as the library has it
  std::vector<BitResponse> responses;  // about the most probable numbers
  Laplace learnt;                      // parameters of ShelfPosterior
  double bit_spread = 0.0;             // 1, as learnt
  int rounds = 0;                      // in which responses were found anew
  double last_gain = 0.0;              // of ln(density) that another round would bring
  Eigen::VectorXd y() const { return learnt.mode.head(numbers.count()); }
};

/// Fits all uncertain numbers of a shelf's runs at once, with the library's spreads as prior and the engine
/// as what predicts: Gauss and Newton's way, each round finding the most probable numbers (laplace) with
/// predictions straight about the last round's, then drilling every bit anew there. In the first round every
/// number that matters (numbers_that_matter) is moved by itself in every run, and the way there begins under
/// a broader law; later only those that were told something or moved far from where they were moved before. A
/// round that does not raise the density with the engine's own predictions is halved. Ends when another round
/// would raise ln of the density by less than 0.05, or after 8 rounds. Throws std::invalid_argument for an
/// empty shelf or one that says nothing, what laplace and run throw.
ShelfFit fit_shelf(const std::vector<scenario::ShelvedBit>& shelf, const FitOptions& options);

/// ln of the posterior density (but for a constant) with predictions as `responses` found them at their y.
double log_density_of(const std::vector<scenario::ShelvedBit>& shelf,
                      const std::vector<BitResponse>& responses, const ShelfNumbers& numbers,
                      const ReadingLaw& law, const Eigen::VectorXd& parameters);

}  // namespace dullcast::learning
