#include "engine/input/key_places.hpp"

#include <algorithm>

#include "engine/base/words.hpp"
#include "engine/scenario/number_fields.hpp"

namespace dullcast::input {
namespace {

struct Place {
  const char* map;
  std::vector<std::string> keys;
};

template <class Record>
void add_numbers(std::vector<std::string>& keys) {
  for (const auto& field : scenario::number_fields(Record{})) keys.emplace_back(field.key);
}

const std::vector<Place>& places() {
  static const std::vector<Place> all = [] {
    std::vector<Place> result{
        {"the scenario itself",
         {"title",        "bit",    "weight_limit", "fluid",          "string",  "pump",
          "plan",         "upsets", "column",       "repeat",         "rework",  "costs",
          "other_method", "chance", "stepping",     "calibrate_from", "learned", "rocks",
          "grades",       "lots",   "bodies",       "fluids",         "bits",    "models"}},
        {"bit",
         {"like",
          "diameter",
          "grade",
          "lot",
          "body",
          "ports",
          "junk_slot_share",
          "blade",
          "gauge_pads",
          "cutter",
          "cutter_kinds",
          "fitted",
          "blades",
          "cutters",
          "starting_wear",
          "starting_damage",
          "starting_chip_hazard",
          "starting_lost",
          "starting_table_gone",
          "starting_erosion",
          "starting_blade_wear",
          "starting_pad_wear",
          "continues"}},
        {"bit.ports", {"count"}},
        {"bit.blade", {"thickness"}},
        {"bit.gauge_pads", {"width"}},
        {"bit.cutter",
         {"size", "table_thickness", "leach_depth", "leach_side_depth", "chamfer", "bevel_width",
          "bevel_angle"}},
        {"bit.blades",
         {"cutters_per_blade", "wing_twist", "wing_sweep", "cone_angle", "nose_share", "gauge_angle",
          "inner_back_rake", "outer_back_rake", "side_rake", "kinds", "exposure", "crowding"}},
        {"fluid", {"inlet_temperature"}},
        {"string", {"pipe_diameter", "pipe_weight", "collar_weight", "collar_length", "steel_density"}},
        {"pump", {"pressure_limit"}},
        {"an item of plan",
         {"weight_on_bit", "pull_down", "holdback", "rotary_speed", "flow", "mist_water", "feed_limit"}},
        {"an item of upsets", {"lasts", "hole"}},
        {"column", {"water_level", "surface_temperature", "temperature_gradient", "layers"}},
        {"an item of column.layers", {"rock", "excess_pressure"}},
        {"repeat",
         {"holes", "stop_at", "trip_time", "connection_every", "connection_time", "pump_at_connections"}},
        {"rework",
         {"worn_height", "outer_dull_grade", "heat_damage", "speed_share_of_new", "chip_probability",
          "gauge_loss", "lost_cutters", "beyond_repair_share", "least_progress"}},
        {"costs", {"currency", "replacement", "rig", "pocket", "fuel_energy", "engine_efficiency"}},
        {"other_method", {"rate_of_penetration", "power", "consumables"}},
        {"chance", {"draw", "seed"}},
        {"stepping", {"relative_tolerance", "output_every", "warming"}},
        {"calibrate_from", {"measurement_error"}},
        {"learned", {"inspected_bits", "shelf", "made", "coefficient_factor", "together"}},
        {"learned.together", {"numbers", "correlation"}},
        {"models", {}}};
    add_numbers<scenario::ModelNumbers>(result.back().keys);
    for (Place& place : result) {
      if (std::string_view(place.map).ends_with("column.layers"))
        add_numbers<scenario::RockRecord>(place.keys);
      if (std::string_view(place.map) == "fluid") place.keys.emplace_back("viscosity");
    }
    return result;
  }();
  return all;
}

/// Whether a name stands as a whole word among the words of another, that low lines part.
bool is_part(std::string_view name, std::string_view of) {
  for (auto at = of.find(name); at != of.npos; at = of.find(name, at + 1)) {
    const std::size_t end = at + name.size();
    if ((at == 0 || of[at - 1] == '_') && (end == of.size() || of[end] == '_')) return true;
  }
  return false;
}

}  // namespace

std::vector<std::string> places_of_key(std::string_view key) {
  std::vector<std::string> result;
  for (const Place& place : places()) {
    if (std::find(place.keys.begin(), place.keys.end(), key) != place.keys.end())
      result.emplace_back(place.map);
  }
  return result;
}

std::string key_hint(const std::string& key, const std::string& path, std::vector<std::string> known) {
  constexpr std::size_t most_named = 3;
  std::sort(known.begin(), known.end());
  known.erase(std::unique(known.begin(), known.end()), known.end());
  std::vector<std::string> like;
  for (const std::string& each : known) {
    if (!key.empty() && is_part(key, each)) like.push_back(each);
  }
  if (like.empty() || like.size() > most_named) like = {base::nearest_word(key, known)};
  // A plan of a sweep has keys of its own.
  const std::string_view top = std::string_view(path).substr(0, path.find('.'));
  const bool of_sweep = top == "design" || top == "draws" || top == "factors" || top == "histories" ||
                        std::find(known.begin(), known.end(), "factors") != known.end();
  const std::vector<std::string> elsewhere = of_sweep ? std::vector<std::string>{} : places_of_key(key);
  std::string text;
  if (!like.front().empty()) text = "did you mean " + base::one_of(like) + "?";
  if (!elsewhere.empty() && elsewhere.size() <= most_named)
    text += (text.empty() ? "it belongs under " : " Or it belongs under ") + base::one_of(elsewhere);
  return text.empty() ? "the keys are " + base::one_of(known) : text;
}

}  // namespace dullcast::input
