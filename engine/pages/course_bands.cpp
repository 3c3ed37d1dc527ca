#include "engine/pages/course_bands.hpp"

#include <algorithm>
#include <array>
#include <vector>

#include "engine/pages/json_parts.hpp"
#include "engine/statistics/quantile_bounds.hpp"

namespace dullcast::pages {
namespace {

using nlohmann::json;

struct Course {
  const char *column, *name, *kind;
  bool stays;  // as it was when the run ended
};
constexpr std::array courses_told{
    Course{"greatest_worn_height", "worn height, most worn cutter", "length", true},
    Course{"hottest_flat", "hottest flat", "temperature", false},
    Course{"rate_of_penetration", "progress", "progress", false},
};

const storage::SweepColumn* column_of(const storage::SweepCourses& courses, const char* name) {
  for (const storage::SweepColumn& column : courses.columns)
    if (column.name == name) return &column;
  return nullptr;
}

/// y at x between rows of rising `along`; `along` reaches x.
double between(const Eigen::ArrayXd& along, const Eigen::ArrayXd& y, double x) {
  Eigen::Index k = 0;
  while (k + 1 < along.size() && along(k + 1) < x) ++k;
  if (k + 1 == along.size() || x <= along(k)) return y(k);
  return y(k) + (y(k + 1) - y(k)) * (x - along(k)) / (along(k + 1) - along(k));
}

}  // namespace

nlohmann::json course_bands(const storage::SweepCourses& courses) {
  const auto count = static_cast<long>(courses.cases.size());
  const storage::SweepColumn* footage = column_of(courses, "footage");
  if (count < least_courses || footage == nullptr || courses.rows < 1) return nullptr;
  const auto course = [&](const storage::SweepColumn& column, long c) {
    return Eigen::ArrayXd(column.values.segment(c * courses.rows, courses.rows));
  };
  std::vector<double> reached;
  for (long c = 0; c < count; ++c) reached.push_back(course(*footage, c).maxCoeff());
  std::vector<double> falling = reached;
  std::sort(falling.rbegin(), falling.rend());
  const long enough = std::max(least_courses, (count + 1) / 2);
  const double end = falling[static_cast<std::size_t>(enough - 1)];
  if (!(end > 0.0)) return nullptr;
  constexpr int steps = 80;
  json along = json::array(), runs = json::array(), bands = json::array();
  std::vector<double> places;
  for (int k = 0; k <= steps; ++k) {
    places.push_back(end * k / steps);
    along.push_back(number(places.back()));
    runs.push_back(
        std::count_if(reached.begin(), reached.end(), [&](double r) { return r >= places.back(); }));
  }
  for (const Course& told_of : courses_told) {
    const storage::SweepColumn* column = column_of(courses, told_of.column);
    if (column == nullptr) continue;
    json low = json::array(), middle = json::array(), high = json::array();
    for (const double place : places) {
      std::vector<double> values;
      for (long c = 0; c < count; ++c) {
        const double far = std::min(place, reached[static_cast<std::size_t>(c)]);
        if (far == place || told_of.stays)
          values.push_back(between(course(*footage, c), course(*column, c), far));
      }
      const Eigen::ArrayXd all =
          Eigen::Map<const Eigen::ArrayXd>(values.data(), static_cast<Eigen::Index>(values.size()));
      const auto at = [&](double share) {
        return number(statistics::quantile_bounds(all, share, 0.9).value);
      };
      low.push_back(at(0.1));
      middle.push_back(at(0.5));
      high.push_back(at(0.9));
    }
    bands.push_back({{"outcome", told_of.column},
                     {"name", told_of.name},
                     {"kind", told_of.kind},
                     {"low", std::move(low)},
                     {"middle", std::move(middle)},
                     {"high", std::move(high)}});
  }
  return {{"courses", count},
          {"footage", std::move(along)},
          {"runs", std::move(runs)},
          {"bands", std::move(bands)}};
}

}  // namespace dullcast::pages
