#include "engine/learning/worth_looking.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace dullcast::learning {
namespace {

/// A weighted mean and variance.
struct Expected {
  double weight = 0.0, sum = 0.0, squares = 0.0, own = 0.0;
  void add(double w, double value, double variance) {
    weight += w;
    sum += w * value;
    squares += w * value * value;
    own += w * variance;
  }
  double mean() const { return weight > 0.0 ? sum / weight : 0.0; }
  double variance() const {
    return weight > 0.0 ? std::max(0.0, squares / weight - mean() * mean()) + own / weight : 0.0;
  }
};

/// What a cause expects of everything that can be looked at.
struct Outlook {
  std::array<Expected, findings> marked;  // counts; heights and grades stand below
  std::array<Expected, 2> grade;          // inner, outer
  std::vector<Expected> height;           // m, one a cutter
};

Trace trace_of(FindingKind finding) {
  switch (finding) {
    case FindingKind::chips:
      return chip_hazard;
    case FindingKind::lost:
      return pocket_load;
    case FindingKind::bare:
      return bond_load;
    default:
      return heat_damage;
  }
}

void look(const PredictedBit& predicted, const Reading& reading, double weight, const ReadingLaw& law,
          double error, Outlook& outlook) {
  for (const FindingKind finding :
       {FindingKind::chips, FindingKind::lost, FindingKind::bare, FindingKind::heat_checks}) {
    const Eigen::ArrayXd chance = chance_of_mark(predicted, trace_of(finding), law);
    outlook.marked[static_cast<std::size_t>(finding)].add(weight, chance.sum(),
                                                          (chance * (1.0 - chance)).sum());
  }
  // Worn as far as the findings say it is.
  const Eigen::ArrayXd worn =
      predicted.starting_wear + (predicted.logs.col(wear_gain) + reading.bit_mean).exp();
  const std::vector<bool> none(static_cast<std::size_t>(worn.size()), false);
  for (const bool outer : {false, true}) {
    if (const auto grade = zone_grade(predicted, worn, none, outer))
      outlook.grade[outer ? 1 : 0].add(weight, *grade, law.grade_error * law.grade_error);
  }
  outlook.height.resize(static_cast<std::size_t>(worn.size()));
  for (Eigen::Index i = 0; i < worn.size(); ++i) {
    const double scatter = law.cutter_scatter * worn(i);
    outlook.height[static_cast<std::size_t>(i)].add(weight, worn(i), error * error + scatter * scatter);
  }
}

Outlook outlook_of(const scenario::InspectedBit& found, const CausePredictions& predictions,
                   const Cause& cause, std::size_t place) {
  struct One {
    const PredictedBit* bit;
    Reading reading;
    double log_weight;
  };
  std::vector<One> all;
  double greatest = -std::numeric_limits<double>::infinity();
  for (std::size_t l = 0; l < cause.levels.size(); ++l) {
    for (const auto& bit : predictions.bits[place][l]) {
      if (!bit) continue;
      One one{&*bit, read_against(found, *bit, predictions.law), 0.0};
      one.log_weight = findings_told(found, *bit, predictions.law, predictions.drilled_enough).all +
                       std::log(cause.levels[l].weight);
      greatest = std::max(greatest, one.log_weight);
      all.push_back(std::move(one));
    }
  }
  Outlook outlook;
  for (const One& one : all)
    look(*one.bit, one.reading, std::exp(one.log_weight - greatest), predictions.law, found.measurement_error,
         outlook);
  return outlook;
}

double deviations(const Expected& a, const Expected& b) {
  const double variance = 0.5 * (a.variance() + b.variance());
  return variance > 0.0 ? std::abs(a.mean() - b.mean()) / std::sqrt(variance) : 0.0;
}

}  // namespace

std::vector<WorthLooking> worth_looking(const scenario::InspectedBit& found,
                                        const CausePredictions& predictions, const std::vector<Cause>& causes,
                                        const CauseOdds& odds) {
  std::vector<WorthLooking> all;
  if (odds.order.size() < 2) return all;
  const std::size_t first = odds.order[0], second = odds.order[1];
  const Outlook one = outlook_of(found, predictions, causes[first], first),
                other = outlook_of(found, predictions, causes[second], second);
  if (one.height.empty() || other.height.empty()) return all;
  const auto cutters = static_cast<double>(one.height.size());
  for (const FindingKind finding :
       {FindingKind::chips, FindingKind::lost, FindingKind::bare, FindingKind::heat_checks}) {
    if (was_looked_at(found, finding)) continue;
    const Expected &a = one.marked[static_cast<std::size_t>(finding)],
                   &b = other.marked[static_cast<std::size_t>(finding)];
    all.push_back({finding, -1, false, a.mean(), b.mean(), cutters, deviations(a, b)});
  }
  for (const bool outer : {false, true}) {
    const std::size_t zone = outer ? 1 : 0;
    if ((outer ? found.outer_grade : found.inner_grade) || !(one.grade[zone].weight > 0.0)) continue;
    all.push_back({FindingKind::grades, -1, outer, one.grade[zone].mean(), other.grade[zone].mean(), 0.0,
                   deviations(one.grade[zone], other.grade[zone])});
  }
  // Of the heights that were not read the one that differs most: they share what is not known of the pace,
  // so that together they tell little more.
  WorthLooking heights;
  double most = 0.0;
  for (std::size_t i = 0; i < one.height.size(); ++i) {
    const bool known = i < found.cutters.size() &&
                       (found.cutters[i].worn_height || found.cutters[i].lost ||
                        found.cutters[i].table_gone || found.cutters[i].chipped || found.cutters[i].renewed);
    if (known) continue;
    const double apart = deviations(one.height[i], other.height[i]);
    if (apart < most) continue;
    most = apart;
    heights = {FindingKind::heights,
               static_cast<int>(i),
               false,
               one.height[i].mean(),
               other.height[i].mean(),
               0.0,
               0.0};
  }
  if (heights.cutter >= 0) {
    heights.deviations = most;
    all.push_back(heights);
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const WorthLooking& a, const WorthLooking& b) { return a.deviations > b.deviations; });
  return all;
}

}  // namespace dullcast::learning
