#include <cmath>

#include "engine/base/words.hpp"
#include "engine/input/bit_reader.hpp"
#include "models/common/constants.hpp"

namespace dullcast::input {

namespace {

constexpr double degree = pi / 180.0;
constexpr base::Range cutter_diameter_range{0.002, 0.1, true, "from 2 to 100 mm"};
// A film of diamond that is grown on is some ten micrometres thick; a table is no thicker than a cutter is
// long.
constexpr base::Range table_range{1e-5, 0.1, true, "from 0.01 to 100 mm"};
constexpr base::Range bevel_angle_range{0.0, 85.0 * degree, true, "from 0 to 85 deg, measured from the face"};

std::string millimetres(double length) {
  return base::plain_number(1000.0 * length) + " mm";
}

}  // namespace

std::optional<CutterSize> cutter_size(std::string_view code) {
  if (code.size() != 4 || code.find_first_not_of("0123456789") != std::string_view::npos) return std::nullopt;
  const auto two = [&](std::size_t at) { return 10 * (code[at] - '0') + (code[at + 1] - '0'); };
  if (two(0) < 5 || two(2) < 3) return std::nullopt;
  return CutterSize{two(0) / 1000.0, two(2) / 1000.0};
}

std::optional<Chamfer> read_chamfer(MapReader& cutter) {
  const auto text = cutter.word("chamfer");
  if (!text) return std::nullopt;
  for (const char* bevel : {"bevel_width", "bevel_angle"})
    if (cutter.has(bevel)) cutter.error(bevel, "is given beside chamfer:; keep one of them");
  if (*text == "none") return Chamfer{};
  const auto by = text->find(" x ");
  if (by == std::string::npos) {
    cutter.error("chamfer", "\"" + *text +
                                "\" is no chamfer; write its width by its angle, such as "
                                "0.4 mm x 45 deg, or none");
    return std::nullopt;
  }
  YamlValue width = *cutter.find("chamfer"), angle = width;
  width.text = text->substr(0, by);
  angle.text = text->substr(by + 3);
  const std::string path = cutter.path_of("chamfer");
  const auto w =
      read_number(width, path, base::dimension::length, base::range::not_negative, cutter.reading());
  const auto chi = read_number(angle, path, base::dimension::angle, bevel_angle_range, cutter.reading());
  return w && chi ? std::optional(Chamfer{*w, *chi}) : std::nullopt;
}

geometry::CutterShape read_cutter_shape(MapReader cutter, double edge_radius) {
  geometry::CutterShape shape;
  shape.edge_radius = edge_radius;
  const auto code = cutter.word("size");
  const auto diameter = cutter.number("diameter", base::dimension::length, cutter_diameter_range);
  const auto length = cutter.number("length", base::dimension::length, cutter_diameter_range);
  if (code) {
    const auto size = cutter_size(*code);
    if (!size) {
      cutter.error("size", "\"" + *code +
                               "\" is no size code; write diameter and length in millimetres as four "
                               "digits, such as 1613 for 16 mm by 13 mm, or diameter: and length:");
    }
    if (size && diameter) cutter.error("diameter", "is given beside size: " + *code + "; keep one of them");
    if (size && length) cutter.error("length", "is given beside size: " + *code + "; keep one of them");
    if (size) {
      shape.radius = 0.5 * size->diameter;
      shape.length = size->length;
    }
  } else if (diameter && length) {
    shape.radius = 0.5 * *diameter;
    shape.length = *length;
  } else if (!cutter.has("size") && !(cutter.has("diameter") && cutter.has("length"))) {
    cutter.error("size", "is missing; write size: 1613 (16 mm by 13 mm), or diameter: and length:");
  }
  // A usual cutter's table and bevel [cp].
  shape.table_thickness = cutter.number_or("table_thickness", base::dimension::length, table_range, 2e-3);
  shape.leach_depth =
      cutter.number_or("leach_depth", base::dimension::length, base::range::not_negative, 0.0);
  shape.leach_side_depth =
      cutter.number_or("leach_side_depth", base::dimension::length, base::range::not_negative, 0.0);
  const auto chamfer = read_chamfer(cutter);
  shape.bevel_width = cutter.number_or("bevel_width", base::dimension::length, base::range::not_negative,
                                       chamfer ? chamfer->width : 4e-4);
  shape.bevel_angle = cutter.number_or("bevel_angle", base::dimension::angle, bevel_angle_range,
                                       chamfer ? chamfer->angle : 45.0 * degree);
  const char* width_key = chamfer ? "chamfer" : "bevel_width";
  if (shape.length > 0.0 && shape.table_thickness > shape.length) {
    cutter.error("table_thickness", "is more than the cutter's length of " + millimetres(shape.length) +
                                        "; a usual table is 2 mm");
  }
  if (shape.leach_depth > shape.table_thickness) {
    cutter.error("leach_depth", "is more than the table's thickness of " +
                                    millimetres(shape.table_thickness) +
                                    "; it is measured from the face into the table");
  }
  if (shape.radius > 0.0 && shape.leach_side_depth > 0.5 * shape.radius) {
    cutter.error(
        "leach_side_depth",
        "is more than a quarter of the cutter's diameter; it is measured from the table's side inwards");
  }
  if (shape.radius > 0.0 && shape.bevel_width > 0.5 * shape.radius) {
    cutter.error(width_key, "is more than a quarter of the cutter's diameter; a usual bevel is 0.4 mm");
  }
  if (shape.bevel_width * std::tan(shape.bevel_angle) > shape.table_thickness) {
    cutter.error(width_key, "reaches deeper than the table's thickness of " +
                                millimetres(shape.table_thickness) + "; a usual bevel is 0.4 mm by 45 deg");
  }
  cutter.finish();
  return shape;
}

}  // namespace dullcast::input
