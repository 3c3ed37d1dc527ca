#include "engine/learning/shelf_fit.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "engine/learning/finding_kinds.hpp"

namespace dullcast::learning {
namespace {

constexpr int most_rounds = 8;
constexpr double hardly_better = 0.05;  // of ln(density): nobody tells a twentieth more from none
constexpr double far_moved = 0.4;       // of a coordinate from where its slopes were found
constexpr double narrowed = 0.2;        // of its deviation

bool says_anything(const scenario::InspectedBit& found) {
  return std::any_of(every_finding.begin(), every_finding.end(),
                     [&](FindingKind finding) { return was_looked_at(found, finding); });
}

/// Runs done of all rounds, of which there are as a rule three.
class Told {
 public:
  Told(const RunsTold& told, const ShelfNumbers& numbers) : told_(told) {
    // A few bits with all their numbers; then all bits, first with a third of theirs, later with a tenth.
    constexpr double few = 4.0;
    for (const auto& own : numbers.of_bit) bits_ += 1.0, slopes_ += static_cast<double>(own.size());
    expected_ = few * slopes_ / std::max(bits_, 1.0) + 0.33 * slopes_ + 2.0 * 0.1 * slopes_ + 6.0 * bits_;
  }
  RunsTold in_round() {
    return [this](double done, double) {
      now_ = done;
      if (told_) told_(std::min(before_ + done, expected_), expected_);
    };
  }
  void round_done() { before_ += now_, now_ = 0.0; }

 private:
  const RunsTold& told_;
  double bits_ = 0.0, slopes_ = 0.0, expected_ = 0.0, before_ = 0.0, now_ = 0.0;
};

/// The law for finding the neighbourhood: from far off every reading looks like a slip of the pen, which says
/// nothing of where to go.
ReadingLaw broad(ReadingLaw law) {
  law.misread = 0.0;
  law.cutter_scatter *= 3.0;
  law.bit_spread = std::max(law.bit_spread, 0.5);
  return law;
}

/// What moved far from where its slopes were found, or was told something since they were found at the start:
/// its slopes are worth finding anew.
std::vector<bool> telling_numbers(const Laplace& learnt, const ShelfNumbers& numbers,
                                  Eigen::VectorXd& found_at, int round) {
  std::vector<bool> telling(numbers.names.size(), false);
  for (Eigen::Index k = 0; k < numbers.count(); ++k) {
    const bool told = round == 1 && std::sqrt(learnt.covariance(k, k)) < 1.0 - narrowed;
    if (!told && std::abs(learnt.mode(k) - found_at(k)) < far_moved) continue;
    telling[static_cast<std::size_t>(k)] = true;
    found_at(k) = learnt.mode(k);
  }
  return telling;
}

}  // namespace

double log_density_of(const std::vector<scenario::ShelvedBit>& shelf,
                      const std::vector<BitResponse>& responses, const ShelfNumbers& numbers,
                      const ReadingLaw& law, const Eigen::VectorXd& parameters) {
  Eigen::VectorXd gradient;
  return ShelfPosterior(shelf, responses, numbers, law).log_density(parameters, gradient);
}

ShelfFit fit_shelf(const std::vector<scenario::ShelvedBit>& shelf, const FitOptions& options) {
  if (std::none_of(shelf.begin(), shelf.end(), [](const auto& bit) { return says_anything(bit.found); }))
    throw std::invalid_argument("the shelf holds no finding to learn from");
  ShelfFit fit;
  fit.numbers = shelf_numbers(shelf);
  fit.law = options.law;
  fit.law.bit_spread = fit.numbers.bit_spread;
  const Eigen::Index count = fit.numbers.count();
  Told told(options.told, fit.numbers);
  const auto find = [&](const Eigen::VectorXd& y, const std::vector<bool>& anew,
                        const std::vector<BitResponse>& before) {
    auto found = responses(shelf, fit.numbers, y, anew, before, options.threads, told.in_round());
    told.round_done();
    return found;
  };
  Eigen::VectorXd here = Eigen::VectorXd::Zero(count + 1), found_at = Eigen::VectorXd::Zero(count);
  fit.worth = numbers_that_matter(shelf, fit.numbers, options.threads, told.in_round());
  told.round_done();
  fit.responses = fit.before = find(here.head(count), fit.worth, {});
  for (fit.rounds = 1;; ++fit.rounds) {
    const ShelfPosterior posterior(shelf, fit.responses, fit.numbers, fit.law);
    const Eigen::VectorXd start =
        fit.rounds == 1
            ? most_probable(ShelfPosterior(shelf, fit.responses, fit.numbers, broad(fit.law)), here)
            : here;
    fit.learnt = laplace(posterior, start, options.threads);
    const double density = log_density_of(shelf, fit.responses, fit.numbers, fit.law, here);
    Eigen::VectorXd next = fit.learnt.mode;
    fit.last_gain = log_density_of(shelf, fit.responses, fit.numbers, fit.law, next) - density;
    if (fit.last_gain < hardly_better || fit.rounds == most_rounds) break;
    const std::vector<bool> anew = telling_numbers(fit.learnt, fit.numbers, found_at, fit.rounds);
    // Too long a step may lead where a bit burns, or where no run gets through: half of it then.
    std::vector<BitResponse> there;
    for (int halved = 0;; ++halved) {
      constexpr int most_halved = 4;
      try {
        there = find(next.head(count), anew, fit.responses);
        if (log_density_of(shelf, there, fit.numbers, fit.law, next) >= density || halved == most_halved)
          break;
      } catch (const std::runtime_error&) {
        if (halved == most_halved) throw;
      }
      next = 0.5 * (here + next);
    }
    here = next;
    fit.responses = std::move(there);
  }
  fit.bit_spread =
      ShelfPosterior(shelf, fit.responses, fit.numbers, fit.law).law_at(fit.learnt.mode).bit_spread;
  return fit;
}

}  // namespace dullcast::learning
