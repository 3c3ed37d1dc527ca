#include <algorithm>
#include <cmath>
#include <numeric>

#include "engine/input/bit_reader.hpp"
#include "models/common/constants.hpp"

namespace dullcast::input {

namespace {

constexpr double degree = pi / 180.0;
constexpr base::Range radius_range{0.0, 1.0, true, "from 0 to 1 m"};
constexpr base::Range height_range{-1.0, 1.0, true, "from -1 to 1 m"};
constexpr base::Range azimuth_range{-100.0 * pi, 100.0 * pi, true,
                                    "an angle around the bit, usually 0 to 360 deg"};
constexpr base::Range back_rake_range{0.0, 60.0 * degree, true, "from 0 to 60 deg"};
constexpr base::Range side_rake_range{-60.0 * degree, 60.0 * degree, true, "from -60 to 60 deg"};
constexpr base::Range profile_range{-90.0 * degree, 90.0 * degree, true,
                                    "from -90 (in the cone) to 90 deg (at gauge)"};

double within_one_turn(double azimuth) {
  const double result = std::fmod(azimuth, two_pi);
  const double positive = result < 0.0 ? result + two_pi : result;
  return positive < two_pi ? positive : 0.0;
}

std::vector<Eigen::Index> ordered_by(const Eigen::ArrayXd& values) {
  std::vector<Eigen::Index> order(static_cast<std::size_t>(values.size()));
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](auto i, auto j) { return values(i) < values(j); });
  return order;
}

/// Profile angle at cutter `order[k]` from the tips on either side of it along the profile.
double angle_from_neighbours(const std::vector<Eigen::Index>& order, std::size_t k,
                             const geometry::BitLayout& layout) {
  const auto here = order[k];
  auto apart = [&](Eigen::Index other) {
    return std::hypot(layout.radius(other) - layout.radius(here), layout.depth(other) - layout.depth(here)) >
           1e-6;
  };
  auto inner = here, outer = here;
  for (std::size_t i = k; i-- > 0;) {
    if (apart(order[i])) {
      inner = order[i];
      break;
    }
  }
  for (std::size_t i = k + 1; i < order.size(); ++i) {
    if (apart(order[i])) {
      outer = order[i];
      break;
    }
  }
  if (inner == outer) return 0.0;  // a lone cutter: a flat profile
  const double dr = layout.radius(outer) - layout.radius(inner);
  const double dz = layout.depth(outer) - layout.depth(inner);
  return std::clamp(std::atan2(-dz, dr), -0.5 * pi, 0.5 * pi);
}

/// Numbers blades in order of azimuth, a new one wherever the next cutter is more than 15 deg on.
void blades_from_azimuth(geometry::BitLayout& layout) {
  constexpr double widest_gap = 15.0 * degree;
  const auto order = ordered_by(layout.azimuth);
  // Start behind the widest gap, so that a wing across azimuth 0 stays one.
  std::size_t start = 0;
  double widest = -1.0;
  for (std::size_t k = 0; k < order.size(); ++k) {
    const double before = k == 0 ? layout.azimuth(order.back()) - two_pi : layout.azimuth(order[k - 1]);
    if (const double gap = layout.azimuth(order[k]) - before; gap > widest) {
      widest = gap;
      start = k;
    }
  }
  int blade = 0;
  for (std::size_t k = 0; k < order.size(); ++k) {
    const auto i = order[(start + k) % order.size()];
    if (k > 0) {
      const auto previous = order[(start + k - 1) % order.size()];
      if (within_one_turn(layout.azimuth(i) - layout.azimuth(previous)) > widest_gap) ++blade;
    }
    layout.blade(i) = blade;
  }
  layout.blades = blade + 1;
}

}  // namespace

void read_cutter_list(MapReader& bit, scenario::BitRecord& record) {
  geometry::BitLayout& layout = record.layout;
  const auto& items = bit.list("cutters");
  constexpr std::size_t most = 400;
  if (items.empty() || items.size() > most) {
    if (bit.has("cutters") && bit.find("cutters")->is_list()) {
      bit.error("cutters", "has " + std::to_string(items.size()) + " cutters; write from 1 to 400");
    }
    return;
  }
  const auto n = static_cast<Eigen::Index>(items.size());
  geometry::resize(layout, n);
  std::vector<std::optional<double>> profile(items.size());
  std::size_t with_blade = 0;
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto k = static_cast<std::size_t>(i);
    MapReader cutter(items[k], bit.path_of("cutters") + "." + std::to_string(i), bit.reading(),
                     bit.location());
    layout.radius(i) = cutter.required("radius", base::dimension::length, radius_range);
    layout.azimuth(i) = within_one_turn(cutter.required("azimuth", base::dimension::angle, azimuth_range));
    layout.depth(i) = 0.0 - cutter.number_or("height", base::dimension::length, height_range, 0.0);
    layout.back_rake(i) = cutter.required("back_rake", base::dimension::angle, back_rake_range);
    layout.side_rake(i) = cutter.number_or("side_rake", base::dimension::angle, side_rake_range, 0.0);
    profile[k] = cutter.number("profile_angle", base::dimension::angle, profile_range);
    layout.kind(i) = read_kind(cutter, record.kinds);
    layout.exposure(i) =
        cutter.number_or("exposure", base::dimension::length, exposure_range, layout.shape(i).radius);
    if (const auto blade = cutter.whole_number("blade", 1, 24)) {
      layout.blade(i) = *blade - 1;
      ++with_blade;
    }
    cutter.finish();
  }
  if (!layout.radius.isFinite().all() || !layout.depth.isFinite().all() || !layout.azimuth.isFinite().all()) {
    return;  // reported above
  }
  const auto order = ordered_by(layout.radius);
  for (std::size_t k = 0; k < order.size(); ++k) {
    const auto i = static_cast<std::size_t>(order[k]);
    layout.profile_angle(order[k]) = profile[i] ? *profile[i] : angle_from_neighbours(order, k, layout);
  }
  if (with_blade == 0) {
    blades_from_azimuth(layout);
  } else {
    layout.blades = layout.blade.maxCoeff() + 1;
    if (with_blade != items.size()) {
      bit.error("cutters", "gives a blade for some cutters only; write blade: for all of them or for none");
    }
  }
}

}  // namespace dullcast::input
