#include <cmath>

#include "engine/input/located_yaml.hpp"
#include "engine/input/scenario_writer.hpp"
#include "engine/input/yaml_lines.hpp"
#include "models/common/constants.hpp"

namespace dullcast::input {

namespace {

void write_shape(YamlLines& lines, int indent, const geometry::CutterShape& shape) {
  lines.number(indent, "diameter", 2.0 * shape.radius, base::dimension::length);
  lines.number(indent, "length", shape.length, base::dimension::length);
  lines.number(indent, "table_thickness", shape.table_thickness, base::dimension::length);
  lines.number(indent, "leach_depth", shape.leach_depth, base::dimension::length);
  lines.number(indent, "leach_side_depth", shape.leach_side_depth, base::dimension::length);
  lines.number(indent, "bevel_width", shape.bevel_width, base::dimension::length);
  lines.number(indent, "bevel_angle", shape.bevel_angle, base::dimension::angle);
}

void write_cutters(YamlLines& lines, const scenario::BitRecord& bit) {
  const geometry::BitLayout& layout = bit.layout;
  lines.line(2, "cutter", "");
  write_shape(lines, 4, layout.shapes.front());
  if (bit.kinds.size() > 1) lines.line(2, "cutter_kinds", "");
  for (std::size_t k = 1; k < bit.kinds.size(); ++k) {
    lines.line(4, bit.kinds[k].name, "");
    write_shape(lines, 6, layout.shapes[k]);
    lines.line(6, "grade", yaml_quoted(bit.kinds[k].grade.name));
  }
  lines.line(2, "cutters", "");
  for (Eigen::Index i = 0; i < layout.count(); ++i) {
    const auto item = [&](const char* key, double value, const base::Dimension& dimension) {
      return std::string(key) + ": " + with_unit(value, dimension) + ", ";
    };
    lines.raw("    - {" + item("radius", layout.radius(i), base::dimension::length) +
              item("azimuth", layout.azimuth(i), base::dimension::angle) +
              item("height", 0.0 - layout.depth(i), base::dimension::length) +
              item("back_rake", layout.back_rake(i), base::dimension::angle) +
              item("side_rake", layout.side_rake(i), base::dimension::angle) +
              item("profile_angle", layout.profile_angle(i), base::dimension::angle) +
              item("exposure", layout.exposure(i), base::dimension::length) +
              (layout.kind(i) == 0
                   ? ""
                   : "kind: " + bit.kinds[static_cast<std::size_t>(layout.kind(i))].name + ", ") +
              "blade: " + std::to_string(layout.blade(i) + 1) + "}\n");
  }
}

void write_build(YamlLines& lines, const scenario::BitBuild& build) {
  if (build.port_area > 0.0) {
    // The area is whole ports of one diameter, so their count comes back exactly.
    const double one = 0.25 * pi * build.port_diameter * build.port_diameter;
    lines.line(2, "ports", "");
    lines.line(4, "count", std::to_string(std::lround(build.port_area / one)));
    lines.number(4, "diameter", build.port_diameter, base::dimension::length);
  }
  lines.number(2, "junk_slot_share", build.junk_slot_share, base::dimension::number);
  lines.line(2, "blade", "");
  lines.number(4, "height", build.blade_height, base::dimension::length);
  lines.number(4, "thickness", build.blade_thickness, base::dimension::length);
  lines.line(2, "gauge_pads", "");
  lines.number(4, "length", build.gauge_pad_length, base::dimension::length);
  lines.number(4, "width", build.gauge_pad_width, base::dimension::length);
}

/// The numbers, from 1, of the cutters marked.
std::string cutter_numbers(const Eigen::ArrayXi& marked) {
  std::string result;
  for (Eigen::Index i = 0; i < marked.size(); ++i) {
    if (marked(i) != 0) result += (result.empty() ? "" : ", ") + std::to_string(i + 1);
  }
  return "[" + result + "]";
}

using KeysAndValues = std::vector<std::pair<std::string, std::string>>;

/// What stands under `bit:` of the state a bit starts in.
KeysAndValues start_keys(const scenario::BitRecord& bit) {
  return {{"starting_wear", list_text(bit.starting_wear, base::dimension::length)},
          {"starting_damage", list_text(bit.starting_damage, base::dimension::number)},
          {"starting_chip_hazard", list_text(bit.starting_chip_hazard, base::dimension::number)},
          {"starting_lost", cutter_numbers(bit.starting_lost)},
          {"starting_table_gone", cutter_numbers(bit.starting_table_gone)},
          {"starting_chipped", cutter_numbers(bit.starting_chipped)},
          {"starting_erosion", with_unit(bit.starting_erosion, base::dimension::length)},
          {"starting_blade_wear", with_unit(bit.starting_blade_wear, base::dimension::length)},
          {"starting_pad_wear", with_unit(bit.starting_pad_wear, base::dimension::length)}};
}

/// What was found and done since an earlier result, as far as anything was.
void write_since_result(YamlLines& lines, const scenario::SinceResult& since) {
  const auto any = [](const Eigen::ArrayXi& marked) { return (marked != 0).any(); };
  if (since.worn_height.isFinite().any())
    lines.line(2, "starting_wear", list_text(since.worn_height, base::dimension::length));
  if (any(since.lost)) lines.line(2, "starting_lost", cutter_numbers(since.lost));
  if (any(since.table_gone)) lines.line(2, "starting_table_gone", cutter_numbers(since.table_gone));
  if (any(since.chipped)) lines.line(2, "starting_chipped", cutter_numbers(since.chipped));
  if (!any(since.renewed) && !any(since.turned) && !since.blades_built_up && !since.pads_built_up) return;
  lines.line(2, "rebuilt", "");
  lines.line(4, "new_cutters", cutter_numbers(since.renewed));
  lines.line(4, "turned", cutter_numbers(since.turned));
  lines.line(4, "blades_built_up", since.blades_built_up ? "yes" : "no");
  lines.line(4, "pads_built_up", since.pads_built_up ? "yes" : "no");
}

}  // namespace

void write_bit(YamlLines& lines, const scenario::BitRecord& bit, const std::string& continues) {
  lines.line(0, "bit", "");
  lines.line(2, "name", yaml_quoted(bit.name));
  lines.number(2, "diameter", 2.0 * bit.layout.bit_radius, base::dimension::length);
  lines.line(2, "grade", yaml_quoted(bit.kinds.front().grade.name));
  lines.line(2, "lot", yaml_quoted(bit.lot.name));
  lines.line(2, "body", yaml_quoted(bit.body.name));
  write_cutters(lines, bit);
  write_build(lines, bit.build);
  if (!continues.empty()) {
    lines.line(2, "continues", continues);
    write_since_result(lines, bit.since_result);
    return;
  }
  for (const auto& [key, value] : start_keys(bit)) lines.line(2, key, value);
}

std::vector<std::string> start_as_sets(const scenario::BitRecord& bit) {
  std::vector<std::string> sets{"bit.continues=", "bit.rebuilt="};
  for (const auto& [key, value] : start_keys(bit)) sets.push_back("bit." + key + "=" + value);
  return sets;
}

}  // namespace dullcast::input
