#include "engine/input/bit_reader.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <string>
#include <vector>

#include "engine/base/words.hpp"
#include "models/common/constants.hpp"
#include "models/geometry/outline.hpp"
#include "models/geometry/worn_profile.hpp"

namespace dullcast::input {

namespace {

constexpr double degree = pi / 180.0;
constexpr base::Range diameter_range{0.02, 2.0, true, "from 20 mm to 2 m"};
constexpr base::Range sweep_range{-180.0 * degree, 180.0 * degree, true, "from -180 to 180 deg"};
constexpr base::Range cone_range{0.0, 60.0 * degree, true, "from 0 to 60 deg"};
constexpr base::Range gauge_range{0.0, 90.0 * degree, false, "above 0 and up to 90 deg"};
constexpr base::Range back_rake_range{0.0, 60.0 * degree, true, "from 0 to 60 deg"};
constexpr base::Range side_rake_range{-60.0 * degree, 60.0 * degree, true, "from -60 to 60 deg"};
constexpr base::Range nose_range{0.01, 0.99, true, "from 0.01 to 0.99 of the bit radius"};
constexpr base::Range crowding_range{0.1, 2.0, true, "from 0.1 to 2"};

std::string millimetres(double length) {
  return base::plain_number(1000.0 * length) + " mm";
}

bool all_have_size(const geometry::BitLayout& layout) {
  return std::all_of(layout.shapes.begin(), layout.shapes.end(),
                     [](const geometry::CutterShape& shape) { return shape.radius > 0.0; });
}

/// The number of cutters planned; the layout is made only when nothing is wrong.
Eigen::Index read_blades(MapReader blades, const std::vector<geometry::FittedCutter>& fitted,
                         scenario::BitRecord& record) {
  geometry::BitLayout& layout = record.layout;
  const std::size_t errors_before = blades.reading().problems.error_count();
  geometry::BladePlan plan;
  plan.bit_diameter = 2.0 * layout.bit_radius;
  const auto& counts = blades.list("cutters_per_blade");
  plan.cutters_per_blade.setZero(static_cast<Eigen::Index>(std::min<std::size_t>(counts.size(), 24)));
  if (!blades.has("cutters_per_blade")) {
    blades.error("cutters_per_blade", "is missing; write one number a blade, such as [5, 4, 5, 4]");
  } else if (counts.empty() || counts.size() > 24) {
    blades.error("cutters_per_blade",
                 "must have one number a blade, for 1 to 24 blades, such as [5, 4, 5, 4]");
  }
  for (Eigen::Index k = 0; k < plan.cutters_per_blade.size(); ++k) {
    const YamlValue& count = counts[static_cast<std::size_t>(k)];
    const std::string& text = count.text;
    const bool whole = count.is_scalar() && !text.empty() && text.size() < 3 &&
                       text.find_first_not_of("0123456789") == std::string::npos && std::stoi(text) > 0;
    if (whole) {
      plan.cutters_per_blade(k) = std::stoi(text);
    } else {
      blades.reading().problems.error(
          count.location, blades.path_of("cutters_per_blade") + "." + std::to_string(k),
          kind_name(count) + " is no count of cutters; write a whole number from 1 to 99");
    }
  }
  plan.wing_sweep = blades.number_or("wing_sweep", base::dimension::angle, sweep_range, 0.0);
  plan.cone_angle = blades.number_or("cone_angle", base::dimension::angle, cone_range, 10.0 * degree);
  plan.nose_share = blades.number_or("nose_share", base::dimension::number, nose_range, 0.6);
  plan.gauge_angle = blades.number_or("gauge_angle", base::dimension::angle, gauge_range, 80.0 * degree);
  plan.inner_back_rake =
      blades.number_or("inner_back_rake", base::dimension::angle, back_rake_range, 15.0 * degree);
  plan.outer_back_rake =
      blades.number_or("outer_back_rake", base::dimension::angle, back_rake_range, 20.0 * degree);
  plan.side_rake = blades.number_or("side_rake", base::dimension::angle, side_rake_range, 0.0);
  plan.wing_twist = read_wing_twist(blades, static_cast<std::size_t>(plan.cutters_per_blade.size()));
  plan.exposure = blades.number("exposure", base::dimension::length, exposure_range);
  plan.zones = read_kind_zones(blades, record.kinds);
  plan.fitted = fitted;
  plan.crowding = blades.number_or("crowding", base::dimension::number, crowding_range, plan.crowding);
  blades.finish();
  if (blades.reading().problems.error_count() != errors_before || !(layout.bit_radius > 0.0) ||
      !all_have_size(layout)) {
    return 0;
  }
  const Eigen::Index cutters = plan.cutters_per_blade.sum();
  const bool all_there =
      std::all_of(fitted.begin(), fitted.end(), [&](const auto& one) { return one.cutter < cutters; });
  if (!all_there) return cutters;
  try {
    layout = geometry::lay_out_mixed(plan, layout.shapes);
  } catch (const std::invalid_argument& failure) {
    blades.error("", std::string("cannot be laid out: ") + failure.what());
  }
  return cutters;
}

/// Cutters over one radius, more than the profile of a run can hold; empty where no radius has so many.
std::string crowded(const geometry::BitLayout& layout) {
  std::vector<geometry::Outline> outlines;
  for (Eigen::Index i = 0; i < layout.count(); ++i)
    outlines.push_back(geometry::make_outline(layout, i, 0.0));
  for (const geometry::Outline& begins : outlines) {
    std::string cutters;
    int count = 0;
    for (std::size_t i = 0; i < outlines.size(); ++i) {
      if (!(outlines[i].reach_inner <= begins.reach_inner && begins.reach_inner < outlines[i].reach_outer))
        continue;
      cutters += (count++ > 0 ? ", " : "") + std::to_string(i + 1);
    }
    if (count > geometry::most_overlapping_cutters)
      return "cutters " + cutters + " all stand over radius " +
             millimetres(std::max(0.0, begins.reach_inner));
  }
  return {};
}

/// What every layout must hold, laid out or listed.
void check_layout(MapReader& bit, const char* key, const geometry::BitLayout& layout) {
  constexpr double gauge_tolerance = 5e-4;  // m: layouts are measured to half a millimetre [asm]
  double reach = 0.0;
  for (Eigen::Index i = 0; i < layout.count(); ++i) {
    const double outer = geometry::make_outline(layout, i, 0.0).reach_outer;
    reach = std::max(reach, outer);
    if (outer > layout.bit_radius + gauge_tolerance) {
      bit.error(key, "cutter " + std::to_string(i + 1) + " reaches to radius " + millimetres(outer) +
                         ", outside the bit's radius of " + millimetres(layout.bit_radius) +
                         "; bring it in, or correct the diameter");
    }
    const double diameter = 2.0 * layout.shape(i).radius;
    if (layout.exposure(i) > diameter) {
      bit.error(key, "cutter " + std::to_string(i + 1) + " stands out more than its own diameter of " +
                         millimetres(diameter) + "; a usual exposure is half of it");
    }
  }
  // A cutter at gauge cuts the wall; some must face the bottom, or nothing carries weight.
  constexpr double least_cosine = 0.0872;  // 85 deg
  if ((layout.profile_angle.cos() < least_cosine).all()) {
    bit.error(key,
              "no cutter faces the hole's bottom: every profile angle is 85 deg or more; 0 deg is the nose, "
              "90 deg the gauge");
  }
  if (const std::string which = crowded(layout); !which.empty()) {
    bit.error(key, which + ", and a run can follow " + std::to_string(geometry::most_overlapping_cutters) +
                       " over one radius; take some away");
  }
  if (const auto band = geometry::first_uncovered_band(layout); band.outer > band.inner) {
    bit.error(key, "no cutter reaches the rock from radius " + millimetres(band.inner) + " to " +
                       millimetres(band.outer) + "; move cutters or add one there");
  }
  if (reach < layout.bit_radius - 1e-3) {
    bit.warn(key, "the cutters reach only radius " + millimetres(reach) + " of " +
                      millimetres(layout.bit_radius) + ": the hole is drilled under size");
  }
  const double least = layout.back_rake.minCoeff() / degree, most = layout.back_rake.maxCoeff() / degree;
  if (least < 5.0 || most > 30.0) {
    bit.warn(key, "a back rake of " + base::plain_number(least < 5.0 ? least : most) +
                      " deg is far from the usual 10 to 20 deg (common practice)");
  }
  if (const double turned = layout.side_rake.abs().maxCoeff() / degree; turned > 20.0) {
    bit.warn(key, "a side rake of " + base::plain_number(turned) +
                      " deg is far from the usual 0 to 10 deg (common practice)");
  }
}

}  // namespace

YamlValue laid_over(const YamlValue& base, const YamlValue& over) {
  if (!base.is_map() || !over.is_map()) return over;
  YamlValue result = base;
  result.location = over.location;
  for (const auto& entry : over.entries) {
    if (auto* known = result.find(entry.key)) {
      known->value = laid_over(known->value, entry.value);
      known->location = entry.location;
    } else {
      result.entries.push_back(entry);
    }
  }
  return result;
}

std::string path_beside(const std::string& path, const std::string& folder) {
  const std::filesystem::path written(path);
  return (written.is_absolute() ? written : std::filesystem::path(folder) / written)
      .lexically_normal()
      .string();
}

scenario::BitRecord read_bit(MapReader& scenario, const Library& library, const std::string& folder) {
  scenario::BitRecord record;
  if (!scenario.has("bit")) {
    scenario.find("bit");
    scenario.error("bit", "is missing; write bit: with like: and a bit of the library (" +
                              base::one_of(names_of(library.bits)) + "), or describe your own");
    return record;
  }
  YamlValue value = *scenario.find("bit");
  {
    MapReader start(value, "bit", scenario.reading(), scenario.location());
    if (const auto like = start.word("like")) {
      const YamlValue* base = named_record(start, "like", "bit", *like, library.bits);
      // An unknown bit is reported; another stands in, so that the rest is checked without complaints that
      // follow.
      if (!base && !library.bits.empty()) base = &library.bits.begin()->second;
      if (base) {
        YamlValue from = *base;
        // A scenario's own list of cutters stands for the library's blades, and the other way round.
        const char* dropped = value.find("cutters") ? "blades" : value.find("blades") ? "cutters" : "";
        std::erase_if(from.entries, [&](const auto& entry) { return entry.key == dropped; });
        // So do its own cutter dimensions for the library's size code, and a wing's twist for its sweep.
        const auto* own = value.find("cutter");
        if (auto* cutter = from.find("cutter"); own && cutter)
          cutter->value = cutter_laid_over(cutter->value, own->value);
        const auto* blades = value.find("blades");
        if (auto* theirs = from.find("blades"); blades && theirs && blades->value.is_map()) {
          std::erase_if(theirs->value.entries, [&](const auto& entry) {
            return (entry.key == "wing_sweep" && blades->value.find("wing_twist")) ||
                   (entry.key == "wing_twist" && blades->value.find("wing_sweep"));
          });
        }
        value = laid_over(from, value);
      }
    }
  }
  MapReader bit(value, "bit", scenario.reading(), scenario.location());
  const auto like = bit.word("like");
  record.name = bit.word("name").value_or(like.value_or("bit"));
  bit.remark("note");
  geometry::BitLayout& layout = record.layout;
  layout.bit_radius =
      0.5 * bit.required("diameter", base::dimension::length, diameter_range, "7.875 in or 200 mm");
  read_cutter_kinds(bit, library, record);
  const std::vector<geometry::FittedCutter> fitted = read_fitted(bit, record.kinds);
  const bool listed = bit.has("cutters"), planned = bit.has("blades");
  if (listed && planned) bit.error("blades", "is given beside cutters:; keep one of them");
  if (!listed && !planned) {
    bit.error("blades",
              "is missing; write blades: with cutters_per_blade: [5, 4, 5, 4], or a list of cutters:");
  }
  const std::size_t errors_before = scenario.reading().problems.error_count();
  bit.find("blades");
  bit.find("cutters");
  Eigen::Index cutters = 0;
  if (listed) {
    read_cutter_list(bit, record);
    cutters = layout.count();
    for (const geometry::FittedCutter& one : fitted)
      if (one.cutter < layout.count()) layout.kind(one.cutter) = one.kind;
  } else if (planned) {
    cutters = read_blades(bit.map("blades"), fitted, record);
  }
  if (cutters > 0) check_fitted(bit, fitted, cutters);
  if (layout.count() > 0 && layout.bit_radius > 0.0 && all_have_size(layout) &&
      scenario.reading().problems.error_count() == errors_before) {
    check_layout(bit, listed ? "cutters" : "blades", layout);
  }
  if (const auto* body =
          named_record(bit, "body", "bit body", bit.word("body").value_or("steel"), library.bodies)) {
    record.body = *body;
  }
  if (const auto* lot = named_record(bit, "lot", "lot", bit.word("lot").value_or("sound"), library.lots)) {
    record.lot = *lot;
  }
  record.build = read_build(bit, layout);
  read_start(bit, record, folder);
  bit.finish();
  return record;
}

}  // namespace dullcast::input
