#include "engine/learning/reading_likelihood.hpp"

#include <algorithm>
#include <cmath>
#include <functional>
#include <stdexcept>
#include <utility>

#include "engine/learning/seen_among.hpp"
#include "engine/learning/wear_likelihood.hpp"
#include "engine/statistics/normal_law.hpp"
#include "models/common/constants.hpp"

namespace dullcast::learning {
namespace {

constexpr double most_log_hazard = 300.0;  // as certain as a chip can be, and its power still a number

/// A log likelihood and its slopes where a bit departs by one shift from what is predicted.
struct Shifted {
  double log_likelihood = 0.0;
  Eigen::ArrayXd slope;  // by one Trace of each cutter
};

/// What is left of a shift, normal with `spread` before, by the trapezoid rule.
struct Integrated {
  double log_likelihood = 0.0, mean = 0.0, square = 0.0;
  Eigen::ArrayXd slope;
};

Integrated integrate(double spread, double least_deviation, Eigen::Index cutters,
                     const std::function<void(double, Shifted&)>& at) {
  Integrated result;
  result.slope.setZero(cutters);
  Shifted one;
  if (!(spread > 0.0)) {
    at(0.0, one);
    result.log_likelihood = one.log_likelihood;
    result.slope = one.slope;
    return result;
  }
  constexpr double reach = 5.0;  // spreads either way: a millionth is beyond
  const double wanted = std::min(0.25 * spread, 0.75 * least_deviation);
  const int half = std::min(400, static_cast<int>(std::ceil(reach * spread / wanted)));
  const double step = reach * spread / half;
  std::vector<double> logs;
  std::vector<Eigen::ArrayXd> slopes;
  for (int k = -half; k <= half; ++k) {
    const double b = k * step;
    at(b, one);
    logs.push_back(one.log_likelihood - 0.5 * b * b / (spread * spread));
    slopes.push_back(one.slope);
  }
  const double greatest = *std::max_element(logs.begin(), logs.end());
  double sum = 0.0;
  for (std::size_t k = 0; k < logs.size(); ++k) {
    const double weight = std::exp(logs[k] - greatest), b = (static_cast<int>(k) - half) * step;
    sum += weight;
    result.mean += weight * b;
    result.square += weight * b * b;
    result.slope += weight * slopes[k];
  }
  result.mean /= sum;
  result.square /= sum;
  result.slope /= sum;
  result.log_likelihood = greatest + std::log(sum * step / (spread * std::sqrt(two_pi)));
  return result;
}

/// Which cutters tell whether they bear a mark, and which do.
Marks marks_of(const scenario::InspectedBit& found, Eigen::Index cutters, const std::optional<int>& count,
               const std::function<bool(const scenario::CutterSeen&)>& tells,
               const std::function<bool(const scenario::CutterSeen&)>& marked) {
  Marks marks;
  for (Eigen::Index i = 0; i < cutters; ++i) {
    if (count) {
      marks.looked_at.push_back(i);
      continue;
    }
    if (found.cutters.empty()) continue;
    const scenario::CutterSeen& seen = found.cutters[static_cast<std::size_t>(i)];
    // Where the inspector did not look for breakage, only what he could not miss tells.
    if (seen.renewed || !tells(seen) || !(found.breakage_noted || marked(seen))) continue;
    marks.looked_at.push_back(i);
    marks.marked.push_back(marked(seen));
  }
  marks.count = count;
  return marks;
}

void add_chips(const scenario::InspectedBit& found, const PredictedBit& predicted, const ReadingLaw& law,
               Reading& reading) {
  const Marks marks = marks_of(
      found, predicted.radius.size(), found.chipped,
      [](const scenario::CutterSeen& seen) { return !seen.lost && !seen.table_gone; },
      [](const scenario::CutterSeen& seen) { return seen.chipped; });
  if (!marks.tell()) return;
  const auto column = predicted.logs.col(chip_hazard);
  const Integrated whole =
      integrate(law.chip_spread, 0.1 * law.chip_spread, column.size(), [&](double c, Shifted& at) {
        const Eigen::ArrayXd hazard = (column + c).min(most_log_hazard).exp();
        const Eigen::ArrayXd whole_edges = (-hazard).exp();
        at.log_likelihood = log_chance_of_marks(marks, 1.0 - whole_edges, 0.5 * law.misread, at.slope);
        at.slope *= hazard * whole_edges;
      });
  reading.log_likelihood += whole.log_likelihood;
  reading.slope.col(chip_hazard) += whole.slope;
}

/// The bell by which marks come with the logarithm of a trace.
struct Bell {
  double middle = 0.0, spread = 1.0;
};

Bell bell_of(const PredictedBit& predicted, Trace trace, const ReadingLaw& law) {
  constexpr double least_spread = 0.01;  // strengths that do not differ at all
  if (trace == heat_damage) return {std::log(law.heat_check_damage), law.heat_check_spread};
  return {0.0, std::max(predicted.strength_spread, least_spread)};
}

/// Marks whose chance is normal in one logarithm.
void add_normal_marks(const Marks& marks, const PredictedBit& predicted, Trace trace, const ReadingLaw& law,
                      Reading& reading) {
  if (!marks.tell()) return;
  const Bell bell = bell_of(predicted, trace, law);
  const Eigen::ArrayXd x = (predicted.logs.col(trace) - bell.middle) / bell.spread;
  Eigen::ArrayXd slope;
  reading.log_likelihood +=
      log_chance_of_marks(marks, chance_of_mark(predicted, trace, law), 0.5 * law.misread, slope);
  reading.slope.col(trace) += slope * (-0.5 * x.square()).exp() / (std::sqrt(two_pi) * bell.spread);
}

void add_wear(const scenario::InspectedBit& found, const PredictedBit& predicted, const ReadingLaw& law,
              Reading& reading) {
  const WearFindings wear(found, predicted, law);
  reading.tells_wear = wear.tell();
  reading.bit_deviation = law.bit_spread;
  if (!wear.tell()) return;
  WearAt here;
  const Integrated whole =
      integrate(law.bit_spread, wear.least_deviation(), predicted.radius.size(), [&](double b, Shifted& at) {
        wear.at(b, here);
        at.log_likelihood = here.log_likelihood;
        at.slope = here.slope;
      });
  reading.log_likelihood += whole.log_likelihood;
  reading.slope.col(wear_gain) += whole.slope;
  reading.bit_mean = whole.mean;
  reading.bit_deviation = std::sqrt(std::max(0.0, whole.square - whole.mean * whole.mean));
  if (law.bit_spread > 0.0) reading.slope_of_spread = whole.square / (law.bit_spread * law.bit_spread) - 1.0;
}

}  // namespace

Eigen::ArrayXd chance_of_mark(const PredictedBit& predicted, Trace trace, const ReadingLaw& law) {
  if (trace == wear_gain || trace == trace_count) throw std::invalid_argument("wear makes no mark");
  if (trace == chip_hazard) return 1.0 - (-predicted.logs.col(trace).min(most_log_hazard).exp()).exp();
  const Bell bell = bell_of(predicted, trace, law);
  return ((predicted.logs.col(trace) - bell.middle) / bell.spread).unaryExpr([](double at) {
    return statistics::standard_normal_share(at);
  });
}

Reading read_against(const scenario::InspectedBit& found, const PredictedBit& predicted,
                     const ReadingLaw& law) {
  const Eigen::Index cutters = predicted.radius.size();
  if (!found.cutters.empty() && static_cast<Eigen::Index>(found.cutters.size()) != cutters)
    throw std::invalid_argument("bit " + found.bit + ": as many cutters as the bit has are needed");
  Reading reading;
  reading.slope.setZero(cutters, trace_count);
  double before = 0.0;
  const auto part = [&] { return reading.log_likelihood - std::exchange(before, reading.log_likelihood); };
  add_wear(found, predicted, law, reading);
  reading.of_wear = part();
  add_chips(found, predicted, law, reading);
  reading.of_chips = part();
  const auto any = [](const scenario::CutterSeen&) { return true; };
  const Marks cracked = marks_of(
      found, cutters, found.heat_checked,
      [](const scenario::CutterSeen& seen) { return !seen.lost && !seen.table_gone; },
      [](const scenario::CutterSeen& seen) { return seen.heat_checked; });
  add_normal_marks(cracked, predicted, heat_damage, law, reading);
  reading.of_heat_checks = part();
  const Marks lost =
      marks_of(found, cutters, found.lost, any, [](const scenario::CutterSeen& seen) { return seen.lost; });
  add_normal_marks(lost, predicted, pocket_load, law, reading);
  reading.of_lost = part();
  const Marks bare = marks_of(
      found, cutters, std::nullopt, [](const scenario::CutterSeen& seen) { return !seen.lost; },
      [](const scenario::CutterSeen& seen) { return seen.table_gone; });
  add_normal_marks(bare, predicted, bond_load, law, reading);
  reading.of_bare = part();
  return reading;
}

}  // namespace dullcast::learning
