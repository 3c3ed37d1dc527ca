#include "engine/input/number_place.hpp"

#include <array>
#include <string_view>
#include <vector>

#include "engine/input/bit_reader.hpp"
#include "engine/input/rules_reader.hpp"
#include "engine/input/yaml_paths.hpp"
#include "engine/scenario/number_fields.hpp"

namespace dullcast::input {

namespace {

using scenario::Scenario;
using Set = std::function<void(Scenario&, double)>;
using Steps = std::vector<std::string>;

/// A number of its own, whatever else the scenario says.
struct Plain {
  std::string_view path;
  void (*set)(Scenario&, double);
};
constexpr std::array plain_numbers{
    Plain{"weight_limit", [](Scenario& s, double x) { s.weight_limit = x; }},
    Plain{"fluid.inlet_temperature", [](Scenario& s, double x) { s.inlet_temperature = x; }},
    Plain{"string.pipe_diameter", [](Scenario& s, double x) { s.string.pipe_diameter = x; }},
    Plain{"string.pipe_weight", [](Scenario& s, double x) { s.string.pipe_weight = x; }},
    Plain{"string.collar_weight", [](Scenario& s, double x) { s.string.collar_weight = x; }},
    Plain{"string.collar_length", [](Scenario& s, double x) { s.string.collar_length = x; }},
    Plain{"string.steel_density", [](Scenario& s, double x) { s.string.steel_density = x; }},
    Plain{"pump.pressure_limit", [](Scenario& s, double x) { s.pump_pressure_limit = x; }},
    Plain{"column.water_level", [](Scenario& s, double x) { s.column.water_level = x; }},
    Plain{"column.surface_temperature", [](Scenario& s, double x) { s.column.surface_temperature = x; }},
    Plain{"column.temperature_gradient", [](Scenario& s, double x) { s.column.temperature_gradient = x; }},
    Plain{"repeat.trip_time", [](Scenario& s, double x) { s.repeat.trip_time = x; }},
    Plain{"repeat.connection_every", [](Scenario& s, double x) { s.repeat.connection_every = x; }},
    Plain{"repeat.connection_time", [](Scenario& s, double x) { s.repeat.connection_time = x; }},
    Plain{"rework.worn_height", [](Scenario& s, double x) { s.rules.worn_height = x; }},
    Plain{"rework.outer_dull_grade", [](Scenario& s, double x) { s.rules.outer_dull_grade = x; }},
    Plain{"rework.heat_damage", [](Scenario& s, double x) { s.rules.heat_damage = x; }},
    Plain{"rework.speed_share_of_new", [](Scenario& s, double x) { s.rules.speed_share_of_new = x; }},
    Plain{"rework.chip_probability", [](Scenario& s, double x) { s.rules.chip_probability = x; }},
    Plain{"rework.gauge_loss", [](Scenario& s, double x) { s.rules.gauge_loss = x; }},
    Plain{"rework.beyond_repair_share", [](Scenario& s, double x) { s.rules.beyond_repair_share = x; }},
    Plain{"rework.least_progress", [](Scenario& s, double x) { s.rules.least_progress = x; }},
    Plain{"costs.rework", [](Scenario& s, double x) { s.costs.rework = x; }},
    Plain{"costs.replacement", [](Scenario& s, double x) { s.costs.replacement = x; }},
    Plain{"costs.cutter", [](Scenario& s, double x) { s.costs.cutter = x; }},
    Plain{"costs.pocket", [](Scenario& s, double x) { s.costs.pocket = x; }},
    Plain{"costs.fuel_energy", [](Scenario& s, double x) { s.costs.fuel_energy = x; }},
    Plain{"costs.engine_efficiency", [](Scenario& s, double x) { s.costs.engine_efficiency = x; }},
    Plain{"other_method.rate_of_penetration",
          [](Scenario& s, double x) { s.other_method.value().rate_of_penetration = x; }},
    Plain{"other_method.power", [](Scenario& s, double x) { s.other_method.value().power = x; }},
    Plain{"other_method.consumables", [](Scenario& s, double x) { s.other_method.value().consumables = x; }},
    Plain{"other_method.rig", [](Scenario& s, double x) { s.other_method.value().rig_per_second = x; }},
    Plain{"stepping.relative_tolerance", [](Scenario& s, double x) { s.stepping.relative_tolerance = x; }},
    Plain{"stepping.output_every", [](Scenario& s, double x) { s.stepping.output_every = x; }},
    Plain{"bit.junk_slot_share", [](Scenario& s, double x) { s.bit.build.junk_slot_share = x; }},
    Plain{"bit.starting_wear", [](Scenario& s, double x) { s.bit.starting_wear.setConstant(x); }},
    Plain{"bit.starting_damage", [](Scenario& s, double x) { s.bit.starting_damage.setConstant(x); }},
    Plain{"bit.starting_chip_hazard",
          [](Scenario& s, double x) { s.bit.starting_chip_hazard.setConstant(x); }},
    Plain{"bit.starting_erosion", [](Scenario& s, double x) { s.bit.starting_erosion = x; }},
    Plain{"bit.starting_blade_wear", [](Scenario& s, double x) { s.bit.starting_blade_wear = x; }},
    Plain{"bit.starting_pad_wear", [](Scenario& s, double x) { s.bit.starting_pad_wear = x; }},
};

/// A bit's price stands for its replacement's, a rig's for the other method's, where those are not stated.
Set price_setter(const std::string& path, const Scenario& read, const NumbersRead& numbers) {
  if (path == "costs.bit") {
    if (numbers.states("costs.replacement")) return [](Scenario& s, double x) { s.costs.bit = x; };
    return [](Scenario& s, double x) { s.costs.bit = s.costs.replacement = x; };
  }
  if (path != "costs.rig") return {};
  if (!read.other_method || numbers.states("other_method.rig"))
    return [](Scenario& s, double x) { s.costs.rig_per_second = x; };
  return [](Scenario& s, double x) {
    s.costs.rig_per_second = x;
    s.other_method.value().rig_per_second = x;
  };
}

/// A number of one item of a list: of the plan, of the upsets.
template <class Item>
Set item_setter(std::vector<Item> Scenario::*list, const Steps& steps, const Scenario& read,
                std::initializer_list<std::pair<const char*, double Item::*>> numbers,
                std::initializer_list<std::pair<const char*, std::optional<double> Item::*>> optionals) {
  const auto index = place_in_list(steps[1], (read.*list).size());
  if (!index) return {};
  const std::size_t i = *index;
  for (const auto& [key, member] : numbers) {
    if (steps[2] == key) return [list, i, m = member](Scenario& s, double x) { (s.*list)[i].*m = x; };
  }
  for (const auto& [key, member] : optionals) {
    if (steps[2] == key) return [list, i, m = member](Scenario& s, double x) { (s.*list)[i].*m = x; };
  }
  return {};
}

Set interval_setter(const Steps& steps, const Scenario& read) {
  using Interval = scenario::OperatingInterval;
  return item_setter<Interval>(
      &Scenario::plan, steps, read,
      {{"pull_down", &Interval::pull_down},
       {"holdback", &Interval::holdback},
       {"rotary_speed", &Interval::rotary_speed},
       {"flow", &Interval::flow},
       {"mist_water", &Interval::mist_water}},
      {{"weight_on_bit", &Interval::weight_on_bit}, {"feed_limit", &Interval::feed_limit}});
}

Set upset_setter(const Steps& steps, const Scenario& read) {
  using scenario::Upset;
  return item_setter<Upset>(&Scenario::upsets, steps, read,
                            {{"from", &Upset::from}, {"lasts", &Upset::lasts}},
                            {{"flow", &Upset::flow},
                             {"mist_water", &Upset::mist_water},
                             {"weight_on_bit", &Upset::weight_on_bit},
                             {"rotary_speed", &Upset::rotary_speed}});
}

/// Numbers of records that other numbers hang on: stones need size and strength and get their abrasivity from
/// it, braze softens before it melts, and the edge's radius belongs to the cutters' shapes too.
bool stands_alone(std::string_view key) {
  return !key.starts_with("inclusion_") && key != "braze_softening" && key != "braze_solidus" &&
         key != "edge_radius";
}

/// The numbers of one uncertain quantity in some records, as stated plainly: low, central and high alike.
/// The rest of what it says (given, by the scenario) it says already.
template <class Record>
Set quantity_setter(const std::string& key, std::vector<std::function<Record&(Scenario&)>> records) {
  if (!stands_alone(key)) return {};
  for (const auto& field : scenario::number_fields(Record{})) {
    if (key != field.key) continue;
    return [records = std::move(records), member = field.member](Scenario& s, double x) {
      for (const auto& record : records) {
        scenario::Quantity& quantity = record(s).*member;
        quantity.low = quantity.central = quantity.high = x;
      }
    };
  }
  return {};
}

template <class Record>
using Records = std::vector<std::function<Record&(Scenario&)>>;

scenario::RockRecord& rock_at(Scenario& scenario, std::size_t layer) {
  return scenario.column.layers[layer].rock;
}

Set layer_setter(const Steps& steps, const Scenario& read) {
  const auto index = place_in_list(steps[2], read.column.layers.size());
  if (!index) return {};
  const std::size_t k = *index;
  if (steps[3] == "excess_pressure")
    return [k](Scenario& s, double x) { s.column.layers[k].excess_pressure = x; };
  return quantity_setter<scenario::RockRecord>(
      steps[3], {[k](Scenario& s) -> scenario::RockRecord& { return rock_at(s, k); }});
}

/// A number of a record that the scenario describes itself, wherever it is used and not overruled.
Set own_record_setter(const Steps& steps, const Scenario& read, const NumbersRead& numbers) {
  const std::string &kind = steps[0], &name = steps[1], &key = steps[2];
  const auto overruled = [&](const std::string& path) {
    return numbers.states(path + "." + key) || numbers.states(path + "." + key + ".central");
  };
  if (kind == "rocks") {
    Records<scenario::RockRecord> rocks;
    for (std::size_t k = 0; k < read.column.layers.size(); ++k) {
      if (read.column.layers[k].rock.name == name && !overruled("column.layers." + std::to_string(k)))
        rocks.emplace_back([k](Scenario& s) -> scenario::RockRecord& { return rock_at(s, k); });
    }
    return quantity_setter<scenario::RockRecord>(key, std::move(rocks));
  }
  if (kind == "grades") {
    Records<scenario::GradeRecord> grades;
    for (std::size_t k = 0; k < read.bit.kinds.size(); ++k) {
      if (read.bit.kinds[k].grade.name == name)
        grades.emplace_back([k](Scenario& s) -> scenario::GradeRecord& { return s.bit.kinds[k].grade; });
    }
    return quantity_setter<scenario::GradeRecord>(key, std::move(grades));
  }
  if (kind == "lots" && read.bit.lot.name == name)
    return quantity_setter<scenario::LotRecord>(
        key, {[](Scenario& s) -> scenario::LotRecord& { return s.bit.lot; }});
  if (kind == "bodies" && read.bit.body.name == name)
    return quantity_setter<scenario::BodyRecord>(
        key, {[](Scenario& s) -> scenario::BodyRecord& { return s.bit.body; }});
  if (kind == "fluids" && read.fluid.name == name && !overruled("fluid"))
    return quantity_setter<scenario::FluidRecord>(
        key, {[](Scenario& s) -> scenario::FluidRecord& { return s.fluid; }});
  return {};
}

Set setter_of(const std::string& path, const Scenario& read, const NumbersRead& numbers) {
  for (const Plain& plain : plain_numbers) {
    if (plain.path == path) return plain.set;
  }
  const Steps steps = steps_of_path(path);
  if (steps[0] == "costs") return price_setter(path, read, numbers);
  if (steps[0] == "plan" && steps.size() == 3) return interval_setter(steps, read);
  if (steps[0] == "upsets" && steps.size() == 3) return upset_setter(steps, read);
  if (steps[0] == "column" && steps.size() == 4 && steps[1] == "layers") return layer_setter(steps, read);
  if (steps[0] == "models" && steps.size() == 2)
    return quantity_setter<scenario::ModelNumbers>(
        steps[1], {[](Scenario& s) -> scenario::ModelNumbers& { return s.numbers; }});
  if (steps[0] == "fluid" && steps.size() == 2)
    return quantity_setter<scenario::FluidRecord>(
        steps[1], {[](Scenario& s) -> scenario::FluidRecord& { return s.fluid; }});
  return steps.size() == 3 ? own_record_setter(steps, read, numbers) : Set{};
}

bool brings_mist(const std::optional<double>& mist_water) {
  return mist_water.value_or(0.0) > 0.0;
}

bool wear_leaves_a_bit(const scenario::BitRecord& bit) {
  const auto leaves = [](double worn, double height) { return !(height > 0.0) || worn < height; };
  return (bit.starting_wear <= bit.layout.exposure).all() &&
         leaves(bit.starting_blade_wear, bit.build.blade_height) &&
         leaves(bit.starting_erosion, bit.build.blade_thickness) &&
         leaves(bit.starting_pad_wear, bit.layout.bit_radius);
}

}  // namespace

std::optional<NumberPlace> place_of(const std::string& path, const Scenario& read,
                                    const NumbersRead& numbers) {
  const std::string said = path.starts_with("layers.") ? "column." + path : path;
  const NumberRead* number = numbers.find(said);
  if (!number) return std::nullopt;
  Set set = setter_of(said, read, numbers);
  if (!set) return std::nullopt;
  return NumberPlace{number->wanted, number->range, std::move(set)};
}

bool holds_together(const Scenario& scenario) {
  const bool mist_possible = scenario.fluid.kind == scenario::FluidKind::gas;
  const double density = scenario.fluid.density.central;
  for (const scenario::OperatingInterval& interval : scenario.plan) {
    if (brings_mist(interval.mist_water) && !mist_possible) return false;
    // The product of two numbers above 0 may be 0, and then no gas carries the mist.
    if (brings_mist(interval.mist_water) && density > 0.0 && !(density * interval.flow > 0.0)) return false;
    if (interval.feed_limit && *interval.feed_limit < scenario.rules.least_progress) return false;
  }
  for (const scenario::Upset& upset : scenario.upsets) {
    if (brings_mist(upset.mist_water) && (!mist_possible || upset.flow == 0.0)) return false;
    if (upset.from >= scenario.column.layers.back().bottom) return false;
  }
  if (too_many_rows(most_footage(scenario.column, scenario.repeat),
                    scenario.stepping.output_every.value_or(0.0)))
    return false;
  return scenario.string.pipe_diameter < 2.0 * scenario.bit.layout.bit_radius &&
         has_slots(scenario.bit.build.junk_slot_share) && wear_leaves_a_bit(scenario.bit);
}

}  // namespace dullcast::input
