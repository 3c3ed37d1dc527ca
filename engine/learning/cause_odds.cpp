#include "engine/learning/cause_odds.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <stdexcept>

#include "engine/base/threads.hpp"

namespace dullcast::learning {
namespace {

constexpr double none = -std::numeric_limits<double>::infinity();

/// ln of the mean of e^values, those at -infinity being passed over: they were not run. -infinity for none.
double log_mean(const std::vector<double>& values, std::size_t left_out) {
  double greatest = none;
  int count = 0;
  for (std::size_t k = 0; k < values.size(); ++k) {
    if (k == left_out || values[k] == none) continue;
    greatest = std::max(greatest, values[k]);
    ++count;
  }
  if (count == 0) return none;
  double sum = 0.0;
  for (std::size_t k = 0; k < values.size(); ++k) {
    if (k != left_out && values[k] != none) sum += std::exp(values[k] - greatest);
  }
  return greatest + std::log(sum / count);
}

constexpr auto no_draw = std::numeric_limits<std::size_t>::max();

/// Evidence of one cause, draw `left_out` aside, and the level that brings most of it.
CauseWeighed evidence_of(const std::vector<std::vector<double>>& levels, const Cause& cause,
                         std::size_t left_out) {
  CauseWeighed weighed;
  weighed.log_evidence = none;
  std::vector<double> parts;
  double weights = 0.0;
  for (std::size_t l = 0; l < levels.size(); ++l) {
    const double mean = log_mean(levels[l], left_out);
    parts.push_back(mean == none ? none : mean + std::log(cause.levels[l].weight));
    // A level of which no run was possible says nothing; the others take its weight.
    if (mean != none) weights += cause.levels[l].weight;
    if (parts.back() > parts[weighed.level]) weighed.level = l;
  }
  const double greatest = parts.empty() ? none : *std::max_element(parts.begin(), parts.end());
  if (greatest == none) return weighed;
  double sum = 0.0;
  for (const double part : parts) sum += std::exp(part - greatest);
  weighed.log_evidence = greatest + std::log(sum / weights);
  return weighed;
}

/// Fills in the probabilities; false where there is nothing to share.
bool share(std::vector<CauseWeighed>& weighed, const std::vector<Cause>& causes) {
  double greatest = none;
  for (std::size_t c = 0; c < causes.size(); ++c) {
    if (causes[c].odds > 0.0) greatest = std::max(greatest, weighed[c].log_evidence);
  }
  if (greatest == none) return false;
  double sum = 0.0;
  for (std::size_t c = 0; c < causes.size(); ++c) {
    weighed[c].probability =
        causes[c].odds > 0.0 ? causes[c].odds * std::exp(weighed[c].log_evidence - greatest) : 0.0;
    sum += weighed[c].probability;
  }
  for (CauseWeighed& one : weighed) one.probability /= sum;
  return true;
}

CauseLikelihoods empty_likelihoods(const CausePredictions& predictions) {
  CauseLikelihoods empty;
  for (const auto& cause : predictions.bits) {
    empty.emplace_back();
    for (const auto& level : cause) empty.back().emplace_back(level.size(), none);
  }
  return empty;
}

double log_odds(double probability) {
  // Certainty is as far as doubles tell it apart.
  const double p = std::clamp(probability, 1e-300, 1.0 - 1e-16);
  return std::log(p) - std::log1p(-p);
}

}  // namespace

FindingsTold findings_told(const scenario::InspectedBit& found, const PredictedBit& predicted,
                           const ReadingLaw& law, double drilled_enough) {
  const Reading whole = read_against(found, predicted, law);
  FindingsTold told;
  told.all = whole.log_likelihood;
  if (predicted.drilled_share < drilled_enough) told.all += std::log(law.misread);
  told.without.fill(told.all);
  const auto leave_out = [&](FindingKind finding, double part) {
    told.without[static_cast<std::size_t>(finding)] -= part;
  };
  leave_out(FindingKind::chips, whole.of_chips);
  leave_out(FindingKind::lost, whole.of_lost);
  leave_out(FindingKind::bare, whole.of_bare);
  leave_out(FindingKind::heat_checks, whole.of_heat_checks);
  // Heights and grades share the bit's own pace, so each is left out by reading the other alone.
  scenario::InspectedBit less = found;
  for (scenario::CutterSeen& cutter : less.cutters) cutter.worn_height.reset();
  leave_out(FindingKind::heights, whole.of_wear - read_against(less, predicted, law).of_wear);
  less = found;
  less.inner_grade.reset();
  less.outer_grade.reset();
  leave_out(FindingKind::grades, whole.of_wear - read_against(less, predicted, law).of_wear);
  return told;
}

std::vector<CauseWeighed> weigh_causes(const CauseLikelihoods& likelihoods,
                                       const std::vector<Cause>& causes) {
  const auto weigh = [&](std::size_t left_out, std::vector<CauseWeighed>& weighed) {
    weighed.clear();
    for (std::size_t c = 0; c < causes.size(); ++c)
      weighed.push_back(evidence_of(likelihoods[c], causes[c], left_out));
    return share(weighed, causes);
  };
  std::vector<CauseWeighed> result;
  if (!weigh(no_draw, result))
    throw std::invalid_argument("no cause that has odds could be drilled, so none can be told from another");
  const std::size_t draws = likelihoods.front().front().size();
  std::vector<double> squares(causes.size(), 0.0);
  std::vector<CauseWeighed> one_less;
  double counted = 0.0;
  for (std::size_t k = 0; k < draws && draws > 1; ++k) {
    if (!weigh(k, one_less)) continue;
    counted += 1.0;
    for (std::size_t c = 0; c < causes.size(); ++c) {
      const double miss = one_less[c].probability - result[c].probability;
      squares[c] += miss * miss;
    }
  }
  for (std::size_t c = 0; c < causes.size() && counted > 0.0; ++c)
    result[c].probability_error = std::sqrt((counted - 1.0) / counted * squares[c]);
  return result;
}

CauseOdds cause_odds(const scenario::InspectedBit& found, const CausePredictions& predictions,
                     const std::vector<Cause>& causes, int threads) {
  CauseLikelihoods all = empty_likelihoods(predictions);
  std::array<CauseLikelihoods, findings> less;
  less.fill(all);
  for (std::size_t c = 0; c < all.size(); ++c) {
    for (std::size_t l = 0; l < all[c].size(); ++l) {
      base::parallel_for(static_cast<int>(all[c][l].size()), threads, [&](int draw) {
        const auto k = static_cast<std::size_t>(draw);
        if (!predictions.bits[c][l][k]) return;
        const FindingsTold told =
            findings_told(found, *predictions.bits[c][l][k], predictions.law, predictions.drilled_enough);
        all[c][l][k] = told.all;
        for (std::size_t f = 0; f < findings; ++f) less[f][c][l][k] = told.without[f];
      });
    }
  }
  CauseOdds odds;
  odds.causes = weigh_causes(all, causes);
  odds.order.resize(causes.size());
  std::iota(odds.order.begin(), odds.order.end(), std::size_t{0});
  std::stable_sort(odds.order.begin(), odds.order.end(), [&](std::size_t a, std::size_t b) {
    return odds.causes[a].probability > odds.causes[b].probability;
  });
  const std::size_t leading = odds.order.front();
  for (const FindingKind finding : every_finding) {
    if (!was_looked_at(found, finding)) continue;
    const double without = weigh_causes(less[static_cast<std::size_t>(finding)], causes)[leading].probability;
    odds.findings.push_back({finding, log_odds(odds.causes[leading].probability) - log_odds(without)});
  }
  std::stable_sort(odds.findings.begin(), odds.findings.end(),
                   [](const FindingWeight& a, const FindingWeight& b) { return a.log_odds > b.log_odds; });
  return odds;
}

}  // namespace dullcast::learning
