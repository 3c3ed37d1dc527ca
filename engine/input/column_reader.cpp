#include "engine/input/column_reader.hpp"

#include <cmath>
#include <set>

#include "engine/base/display.hpp"
#include "engine/base/words.hpp"
#include "engine/input/quantity_reader.hpp"
#include "engine/input/setting_ranges.hpp"
#include "engine/scenario/number_fields.hpp"

namespace dullcast::input {

namespace {

constexpr base::Range thickness_range{0.0, setting_range::deepest_hole, false, "above 0 and up to 15 km"};
// A hair wider than its words: -50 degC comes out of its unit a rounding below 223.15 K.
constexpr base::Range ground_range{223.1499, 573.1501, true, "from -50 to 300 degC"};
constexpr base::Range gradient_range{-0.1, 1.0, true, "from -100 to 1000 K/km"};
constexpr base::Range excess_range{
    0.0, 1e9, true, "0 or more, up to 1 GPa: the bottom-hole pressure above the pore pressure"};
constexpr double same_depth = 5e-3;  // m

/// Top and bottom of one layer below the one that ends at `above`; false when they cannot be told.
bool read_depths(MapReader& map, double above, scenario::Layer& layer) {
  const auto top = map.number("top", base::dimension::depth, setting_range::depth);
  const auto bottom = map.number("bottom", base::dimension::depth, setting_range::depth);
  const auto thickness = map.number("thickness", base::dimension::depth, thickness_range);
  layer.top = above;
  if (top) {
    if (*top > above + same_depth) {
      map.error("top",
                above == 0.0
                    ? "the first layer starts at " + base::depth_text(*top) +
                          "; the column starts at the surface, so write top: 0 m or add what lies above"
                    : "leaves a gap: the layer above ends at " + base::depth_text(above) +
                          " and this one starts at " + base::depth_text(*top) +
                          "; close it or log what lies between");
    } else if (*top < above - same_depth) {
      map.error("top", "overlaps the layer above, which ends at " + base::depth_text(above) + ", by " +
                           base::depth_text(above - *top) +
                           "; layers follow each other from the surface down");
    }
    if (std::abs(*top - above) > same_depth) layer.top = *top;
  }
  if (bottom) {
    layer.bottom = *bottom;
    if (thickness && std::abs(*bottom - layer.top - *thickness) > same_depth) {
      map.error("thickness", "does not fit the layer's ends at " + base::depth_text(layer.top) + " and " +
                                 base::depth_text(*bottom) + "; give thickness or bottom, not both");
    }
  } else if (thickness) {
    layer.bottom = layer.top + *thickness;
  } else {
    if (!map.has("bottom") && !map.has("thickness")) {
      map.error("thickness", "is missing; write thickness: 60 ft, or bottom: 120 ft");
    }
    return false;
  }
  if (layer.bottom > layer.top && layer.bottom <= layer.top + same_depth) {
    map.error(bottom ? "bottom" : "thickness",
              "makes a layer thinner than the 5 mm that depths are told apart by; leave it out or make it "
              "thicker");
    return false;
  }
  if (!(layer.bottom > layer.top)) {
    map.error(bottom ? "bottom" : "thickness",
              "ends at " + base::depth_text(layer.bottom) + ", no deeper than it starts, at " +
                  base::depth_text(layer.top) + "; layers follow each other from the surface down");
    return false;
  }
  if (layer.bottom > setting_range::deepest_hole) {
    map.error("thickness", "takes the column below 15 km; check the unit");
    return false;
  }
  return true;
}

}  // namespace

scenario::Column read_column(MapReader& scenario, const Library& library) {
  scenario::Column column;
  MapReader map = scenario.map("column");
  column.water_level = map.number_or("water_level", base::dimension::depth, setting_range::depth, 0.0);
  column.surface_temperature =
      map.number_or("surface_temperature", base::dimension::temperature, ground_range, 288.15);
  // 25 K/km is the usual gradient of continents [hb].
  column.temperature_gradient =
      map.number_or("temperature_gradient", base::dimension::temperature_gradient, gradient_range, 0.025);
  const auto& layers = map.list("layers");
  if (!map.has("layers") || (map.find("layers")->is_list() && layers.empty())) {
    map.error("layers",
              "is missing; write one \"- {rock: shale, thickness: 60 ft}\" to a layer from the surface down");
  }
  std::set<std::string> warned;
  double above = 0.0;
  for (std::size_t i = 0; i < layers.size(); ++i) {
    MapReader item(layers[i], map.path_of("layers") + "." + std::to_string(i), scenario.reading(),
                   map.location());
    scenario::Layer layer;
    layer.location = layers[i].location;
    if (const auto name = item.word("rock")) {
      if (const auto* rock = named_record(item, "rock", "rock", *name, library.rocks)) layer.rock = *rock;
    } else if (!item.has("rock")) {
      item.error("rock", "is missing; write rock: and one of " + base::one_of(names_of(library.rocks)));
    }
    read_numbers(item, layer.rock, false, [&](const char* key) {
      return usual_words(key, library.usual_rock, scenario.reading().units);
    });
    warn_unusual(item, layer.rock, library.usual_rock);
    if (item.has("inclusion_share") || item.has("inclusion_size") || item.has("inclusion_strength") ||
        item.has("inclusion_abrasivity")) {
      check_inclusions(item, layer.rock);
    }
    layer.excess_pressure = item.number_or("excess_pressure", base::dimension::pressure, excess_range, 0.0);
    if (read_depths(item, above, layer)) above = layer.bottom;
    item.finish();
    if (layer.rock.hard_on_cutters && warned.insert(layer.rock.name).second) {
      item.warn("rock", layer.rock.name + " chips and burns diamond cutters" +
                            (layer.rock.note.empty() ? std::string() : " (" + layer.rock.note + ")") +
                            ": drill it slowly and look at the bit after it");
    }
    column.layers.push_back(std::move(layer));
  }
  if (above > 0.0 && column.water_level > above) {
    map.warn("water_level", "lies below the column's bottom at " + base::depth_text(above) +
                                ": the hole stays dry outside the bit's own fluid");
  }
  map.finish();
  return column;
}

}  // namespace dullcast::input
