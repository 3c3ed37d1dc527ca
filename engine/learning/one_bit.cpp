#include "engine/learning/one_bit.hpp"

#include <cmath>
#include <stdexcept>

namespace dullcast::learning {

scenario::ShelvedBit shelf_of_one(const scenario::Scenario& inspected,
                                  const scenario::Inspection& inspection) {
  const std::string place =
      inspection.location.file + ":" + std::to_string(inspection.location.line) + ": calibrate_from: ";
  const Eigen::ArrayXd& readings = inspection.worn_height;
  if (readings.size() != inspected.bit.layout.count())
    throw std::invalid_argument(place + "as many readings as the inspected bit has cutters are needed");
  scenario::ShelvedBit one;
  double measured = 0.0, at_start = 0.0;
  one.found.cutters.resize(static_cast<std::size_t>(readings.size()));
  int count = 0;
  for (Eigen::Index i = 0; i < readings.size(); ++i) {
    if (!std::isfinite(readings(i))) continue;
    one.found.cutters[static_cast<std::size_t>(i)].worn_height = readings(i);
    measured += readings(i);
    at_start += inspected.bit.starting_wear(i);
    ++count;
  }
  if (count == 0) throw std::invalid_argument(place + "no cutter was measured");
  if (!(measured > at_start))
    throw std::invalid_argument(place + "the readings show no more wear than the bit started with");
  one.found.bit = inspected.title;
  // Heights are all that was asked for: what is not measured may have been chipped, or not.
  one.found.breakage_noted = false;
  one.found.measurement_error = inspection.measurement_error;
  one.found.scenario_file = inspection.scenario_file;
  one.found.location = inspection.location;
  one.run = inspected;
  one.run.repeat.stop_at = scenario::StopAt::last_hole;
  if (inspection.holes > 0.0) one.run.repeat.holes = static_cast<int>(std::lround(inspection.holes));
  one.run.stepping.output_every = 0.0;
  one.run.random_events.drawn = false;  // what broke at random does not say how fast diamond wears
  one.found.holes = one.run.repeat.holes;
  return one;
}

scenario::Learned learn_from_one(const scenario::Scenario& inspected, const scenario::Inspection& inspection,
                                 const FitOptions& options) {
  const std::vector<scenario::ShelvedBit> shelf{shelf_of_one(inspected, inspection)};
  const ShelfFit fit = fit_shelf(shelf, options);
  if (fit.before.front().at.logs.col(wear_gain).maxCoeff() <= log_of_nothing)
    throw std::invalid_argument(inspection.location.file + ":" + std::to_string(inspection.location.line) +
                                ": calibrate_from: the inspected run does not wear the bit");
  scenario::Learned learned = learned_numbers(fit, 1);
  learned.shelf = inspection.scenario_file + " (calibrate_from)";
  return learned;
}

}  // namespace dullcast::learning
