#include "engine/base/words.hpp"
#include "engine/input/bit_reader.hpp"
#include "models/common/constants.hpp"

namespace dullcast::input {

namespace {
constexpr base::Range size_range{1e-4, 1.0, true, "from 0.1 mm to 1 m"};
constexpr base::Range slot_range{0.0, 0.9, true, "from 0 (the models' number) to 0.9"};
constexpr double least_slot_share = 1e-3;  // as of the models
constexpr int most_ports = 100;

std::string millimetres(double length) {
  return base::plain_number(1000.0 * length) + " mm";
}

void read_ports(MapReader ports, double bit_radius, scenario::BitBuild& build) {
  const auto count = ports.whole_number("count", 1, most_ports);
  if (!ports.has("count")) ports.error("count", "is missing; write count: 4");
  const double diameter = ports.required("diameter", base::dimension::length, size_range, "10 mm");
  ports.finish();
  if (!count || !(diameter > 0.0)) return;
  build.port_diameter = diameter;
  build.port_area = *count * (0.25 * pi * diameter * diameter);
  if (bit_radius > 0.0 && build.port_area >= 0.5 * pi * bit_radius * bit_radius) {
    ports.error("diameter", "makes ports of half the hole's area or more; a usual port is 8 to 12 mm");
  }
}
}  // namespace

bool has_slots(double junk_slot_share) {
  return junk_slot_share == 0.0 || junk_slot_share >= least_slot_share;
}

scenario::BitBuild read_build(MapReader& bit, const geometry::BitLayout& layout) {
  const double radius = layout.bit_radius;
  scenario::BitBuild build;
  if (bit.has("ports")) {
    read_ports(bit.map("ports"), radius, build);
  } else {
    bit.find("ports");
  }
  build.junk_slot_share = bit.number_or("junk_slot_share", base::dimension::number, slot_range, 0.0);
  if (!has_slots(build.junk_slot_share)) {
    bit.error("junk_slot_share",
              "leaves the fluid hardly any way out; write 0.001 or more, or 0 for the models' number");
  }
  // Shares of the bit radius as on ordinary water-well bits [asm].
  MapReader blade = bit.map("blade");
  build.blade_height = blade.number_or("height", base::dimension::length, size_range, 0.30 * radius);
  build.blade_thickness = blade.number_or("thickness", base::dimension::length, size_range, 0.22 * radius);
  blade.finish();
  MapReader pads = bit.map("gauge_pads");
  build.gauge_pad_length = pads.number_or("length", base::dimension::length, size_range, 0.5 * radius);
  build.gauge_pad_width = pads.number_or("width", base::dimension::length, size_range, build.blade_thickness);
  if (radius > 0.0) {
    if (build.blade_height >= radius) {
      blade.error("height", "is as much as the bit's radius of " + millimetres(radius) +
                                " or more; a usual blade is a third of it high");
    }
    if (build.blade_thickness >= radius) {
      blade.error("thickness", "is as much as the bit's radius of " + millimetres(radius) +
                                   " or more; a usual blade is a quarter of it thick");
    }
    if (layout.blades * build.gauge_pad_width >= two_pi * radius) {
      pads.error("width", "makes the pads of " + std::to_string(layout.blades) +
                              " blades cover the whole circumference of " + millimetres(two_pi * radius) +
                              "; leave room for the slots between them");
    }
  }
  pads.finish();
  return build;
}

}  // namespace dullcast::input
