#include "engine/input/inspection_reader.hpp"

#include <filesystem>
#include <limits>

#include "engine/input/bit_reader.hpp"
#include "engine/input/cutter_findings.hpp"

namespace dullcast::input {

namespace {
constexpr base::Range holes_range{0.0, 1e6, true, "0 (all of them) or more, up to 1000000"};
constexpr double usual_reading_error =
    1e-4;  // m: a tenth of a millimetre with a calliper on a worn edge [asm]
}  // namespace

std::optional<scenario::Inspection> read_inspection(
    MapReader& scenario, const std::string& folder,
    const std::function<Eigen::Index(const std::string& path)>& cutters_of) {
  scenario.find("calibrate_from");
  if (!scenario.has("calibrate_from")) return std::nullopt;
  MapReader map = scenario.map("calibrate_from");
  scenario::Inspection inspection;
  inspection.location = scenario.place("calibrate_from");
  const auto path = map.word("scenario");
  Eigen::Index cutters = 0;
  if (!path) {
    if (!map.has("scenario")) map.error("scenario", "is missing; write the file of the run the bit made");
  } else {
    inspection.scenario_file = path_beside(*path, folder);
    try {
      cutters = cutters_of(inspection.scenario_file);
    } catch (const ScenarioErrors& failure) {
      map.error("scenario", "cannot be used: " + failure.messages().front());
    }
  }
  inspection.holes = map.number_or("holes", base::dimension::number, holes_range, 0.0);
  inspection.measurement_error =
      map.number_or("measurement_error", base::dimension::length, reading_error_range, usual_reading_error);
  const auto& readings = map.list("worn_height");
  if (!map.has("worn_height")) {
    map.error("worn_height",
              "is missing; write a list, one height a cutter from the axis outward, or not measured");
  }
  inspection.worn_height.resize(static_cast<Eigen::Index>(readings.size()));
  bool measured = false;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    // A new cutter and a broken one tell nothing of how fast cutters wear.
    const std::string place = map.path_of("worn_height") + "." + std::to_string(i);
    const std::size_t errors_before = map.reading().problems.error_count();
    const CutterFinding finding = read_finding(readings[i], place, map.reading());
    const double height = finding.tells_wear() ? *finding.height : std::numeric_limits<double>::quiet_NaN();
    measured |= finding.tells_wear() || map.reading().problems.error_count() != errors_before;
    inspection.worn_height(static_cast<Eigen::Index>(i)) = height;
  }
  if (!readings.empty() && !measured) {
    map.error("worn_height", "holds no measurement; give the height of one cutter at least");
  }
  if (cutters > 0 && !readings.empty() && static_cast<Eigen::Index>(readings.size()) != cutters) {
    map.error("worn_height", "has " + std::to_string(readings.size()) + " values, but the bit of " + *path +
                                 " has " + std::to_string(cutters) +
                                 " cutters; write one a cutter, or not measured");
  }
  map.finish();
  return inspection;
}

}  // namespace dullcast::input
