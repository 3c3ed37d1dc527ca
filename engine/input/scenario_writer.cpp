#include "engine/input/scenario_writer.hpp"

#include <filesystem>
#include <map>

#include "engine/input/learned_writer.hpp"
#include "engine/input/located_yaml.hpp"
#include "engine/input/yaml_lines.hpp"

namespace dullcast::input {

namespace {

bool same(const scenario::Quantity& one, const scenario::Quantity& other) {
  return one.low == other.low && one.central == other.central && one.high == other.high &&
         one.mark == other.mark && one.source == other.source;
}

class Writer {
 public:
  explicit Writer(const scenario::Scenario& scenario) : scenario_(scenario) {}

  std::string write() {
    line(0, "title", yaml_quoted(scenario_.title));
    write_bit(lines_, scenario_.bit,
              scenario_.bit.continues.empty() ? "" : relative(scenario_.bit.continues));
    line(0, "weight_limit", with_unit(scenario_.weight_limit, base::dimension::force));
    fluid_and_string();
    column();
    plan();
    upsets();
    rules();
    costs();
    records();
    learned();
    inspection();
    return lines_.text();
  }

 private:
  void line(int indent, std::string_view key, const std::string& value) { lines_.line(indent, key, value); }
  void number(int indent, std::string_view key, double value, const base::Dimension& dimension) {
    lines_.number(indent, key, value, dimension);
  }
  template <class Record>
  void numbers(int indent, const Record& record) {
    lines_.numbers(indent, record);
  }
  std::string relative(const std::string& path) const {
    const auto folder = std::filesystem::absolute(scenario_.file).lexically_normal().parent_path();
    const auto result = std::filesystem::absolute(path).lexically_normal().lexically_relative(folder);
    return yaml_quoted(result.empty() ? path : result.string());
  }

  void fluid_and_string() {
    line(0, "fluid", "");
    line(2, "name", yaml_quoted(scenario_.fluid.name));
    number(2, "inlet_temperature", scenario_.inlet_temperature, base::dimension::temperature);
    line(0, "string", "");
    number(2, "pipe_diameter", scenario_.string.pipe_diameter, base::dimension::length);
    number(2, "pipe_weight", scenario_.string.pipe_weight, base::dimension::weight_per_length);
    number(2, "collar_weight", scenario_.string.collar_weight, base::dimension::weight_per_length);
    number(2, "collar_length", scenario_.string.collar_length, base::dimension::depth);
    number(2, "steel_density", scenario_.string.steel_density, base::dimension::density);
    line(0, "pump", "");
    number(2, "pressure_limit", scenario_.pump_pressure_limit, base::dimension::pressure);
  }

  /// The record of each rock as its first layer has it; other layers write what differs.
  std::map<std::string, const scenario::RockRecord*> rocks() const {
    std::map<std::string, const scenario::RockRecord*> result;
    for (const auto& layer : scenario_.column.layers) result.try_emplace(layer.rock.name, &layer.rock);
    return result;
  }

  void column() {
    const scenario::Column& column = scenario_.column;
    line(0, "column", "");
    number(2, "water_level", column.water_level, base::dimension::depth);
    number(2, "surface_temperature", column.surface_temperature, base::dimension::temperature);
    number(2, "temperature_gradient", column.temperature_gradient, base::dimension::temperature_gradient);
    line(2, "layers", "");
    const auto base = rocks();
    for (const auto& layer : column.layers) {
      lines_.raw("    - rock: " + yaml_quoted(layer.rock.name) + "\n");
      number(6, "top", layer.top, base::dimension::depth);
      number(6, "bottom", layer.bottom, base::dimension::depth);
      number(6, "excess_pressure", layer.excess_pressure, base::dimension::pressure);
      const scenario::RockRecord& plain = *base.at(layer.rock.name);
      for (const auto& field : scenario::number_fields(layer.rock)) {
        const scenario::Quantity& quantity = layer.rock.*field.member;
        if (!same(quantity, plain.*field.member)) line(6, field.key, quantity_text(quantity, *field.wanted));
      }
    }
  }

  void plan() {
    line(0, "plan", "");
    for (const auto& interval : scenario_.plan) {
      lines_.raw("  - from: " + with_unit(interval.from, base::dimension::depth) + "\n");
      number(4, "to", interval.to, base::dimension::depth);
      if (interval.weight_on_bit) {
        number(4, "weight_on_bit", *interval.weight_on_bit, base::dimension::force);
      } else {
        number(4, "pull_down", interval.pull_down, base::dimension::force);
        number(4, "holdback", interval.holdback, base::dimension::force);
      }
      number(4, "rotary_speed", interval.rotary_speed, base::dimension::rotary_speed);
      number(4, "flow", interval.flow, base::dimension::flow);
      number(4, "mist_water", interval.mist_water, base::dimension::flow);
      if (interval.feed_limit) number(4, "feed_limit", *interval.feed_limit, base::dimension::speed);
    }
  }

  void upsets() {
    if (scenario_.upsets.empty()) return;
    line(0, "upsets", "");
    for (const auto& upset : scenario_.upsets) {
      lines_.raw("  - from: " + with_unit(upset.from, base::dimension::depth) + "\n");
      line(4, "hole", upset.hole < 0 ? "every" : std::to_string(upset.hole + 1));
      number(4, "lasts", upset.lasts, base::dimension::time);
      if (upset.flow) number(4, "flow", *upset.flow, base::dimension::flow);
      if (upset.mist_water) number(4, "mist_water", *upset.mist_water, base::dimension::flow);
      if (upset.weight_on_bit) number(4, "weight_on_bit", *upset.weight_on_bit, base::dimension::force);
      if (upset.rotary_speed) number(4, "rotary_speed", *upset.rotary_speed, base::dimension::rotary_speed);
    }
  }

  void rules() {
    const scenario::Repeat& repeat = scenario_.repeat;
    line(0, "repeat", "");
    line(2, "holes", std::to_string(repeat.holes));
    line(2, "stop_at",
         repeat.stop_at == scenario::StopAt::rework_due      ? "rework_due"
         : repeat.stop_at == scenario::StopAt::beyond_repair ? "beyond_repair"
                                                             : "last_hole");
    number(2, "trip_time", repeat.trip_time, base::dimension::time);
    number(2, "connection_every", repeat.connection_every, base::dimension::depth);
    number(2, "connection_time", repeat.connection_time, base::dimension::time);
    line(2, "pump_at_connections", repeat.pump_at_connections ? "on" : "off");
    const scenario::ReworkRules& rules = scenario_.rules;
    line(0, "rework", "");
    if (rules.worn_height) number(2, "worn_height", *rules.worn_height, base::dimension::length);
    if (rules.outer_dull_grade)
      number(2, "outer_dull_grade", *rules.outer_dull_grade, base::dimension::number);
    if (rules.heat_damage) number(2, "heat_damage", *rules.heat_damage, base::dimension::number);
    if (rules.speed_share_of_new)
      number(2, "speed_share_of_new", *rules.speed_share_of_new, base::dimension::number);
    if (rules.chip_probability)
      number(2, "chip_probability", *rules.chip_probability, base::dimension::number);
    if (rules.gauge_loss) number(2, "gauge_loss", *rules.gauge_loss, base::dimension::length);
    if (rules.lost_cutters) number(2, "lost_cutters", *rules.lost_cutters, base::dimension::number);
    number(2, "beyond_repair_share", rules.beyond_repair_share, base::dimension::number);
    number(2, "least_progress", rules.least_progress, base::dimension::speed);
  }

  void costs() {
    const scenario::Costs& costs = scenario_.costs;
    line(0, "costs", "");
    line(2, "currency", yaml_quoted(costs.currency));
    line(2, "bit", money_text(costs.bit, costs.currency));
    line(2, "rig", money_text(costs.rig_per_second, costs.currency, "/s"));
    line(2, "rework", money_text(costs.rework, costs.currency));
    line(2, "replacement", money_text(costs.replacement, costs.currency));
    line(2, "cutter", money_text(costs.cutter, costs.currency));
    line(2, "pocket", money_text(costs.pocket, costs.currency));
    number(2, "fuel_energy", costs.fuel_energy, base::dimension::fuel_energy);
    number(2, "engine_efficiency", costs.engine_efficiency, base::dimension::number);
    if (scenario_.other_method) {
      const scenario::OtherMethod& method = *scenario_.other_method;
      line(0, "other_method", "");
      line(2, "name", yaml_quoted(method.name));
      number(2, "rate_of_penetration", method.rate_of_penetration, base::dimension::speed);
      number(2, "power", method.power, base::dimension::power);
      line(2, "consumables", money_text(method.consumables, costs.currency, "/m"));
      line(2, "rig", money_text(method.rig_per_second, costs.currency, "/s"));
    }
    line(0, "chance", "");
    line(2, "draw", scenario_.random_events.drawn ? "yes" : "no");
    line(2, "seed", std::to_string(scenario_.random_events.seed));
    line(0, "stepping", "");
    number(2, "relative_tolerance", scenario_.stepping.relative_tolerance, base::dimension::number);
    if (const auto every = scenario_.stepping.output_every)
      number(2, "output_every", *every, base::dimension::depth);
    else
      line(2, "output_every", "chosen");
    line(2, "warming",
         scenario_.stepping.warming == scenario::Warming::followed ? "followed" : "where_it_matters");
  }

  void records() {
    line(0, "rocks", "");
    for (const auto& [name, rock] : rocks()) {
      line(2, yaml_quoted(name), "");
      line(4, "note", yaml_quoted(rock->note));
      line(4, "hard_on_cutters", rock->hard_on_cutters ? "yes" : "no");
      numbers(4, *rock);
    }
    line(0, "grades", "");
    const std::vector<scenario::CutterKind>& kinds = scenario_.bit.kinds;
    for (std::size_t k = 0; k < kinds.size(); ++k) {
      if (scenario::first_with_grade(kinds, k) < k) continue;
      line(2, yaml_quoted(kinds[k].grade.name), "");
      numbers(4, kinds[k].grade);
    }
    line(0, "lots", "");
    line(2, yaml_quoted(scenario_.bit.lot.name), "");
    numbers(4, scenario_.bit.lot);
    line(0, "bodies", "");
    line(2, yaml_quoted(scenario_.bit.body.name), "");
    numbers(4, scenario_.bit.body);
    line(0, "fluids", "");
    line(2, yaml_quoted(scenario_.fluid.name), "");
    line(4, "kind", scenario_.fluid.kind == scenario::FluidKind::liquid ? "liquid" : "gas");
    numbers(4, scenario_.fluid);
    line(0, "models", "");
    numbers(2, scenario_.numbers);
  }

  /// The numbers stand among the records already; this says on what they rest and how they go together.
  void learned() {
    if (!scenario_.learned) return;
    const scenario::Learned& known = *scenario_.learned;
    line(0, "learned", "");
    line(2, "inspected_bits", std::to_string(known.bits));
    if (!known.shelf.empty()) line(2, "shelf", yaml_quoted(known.shelf));
    if (!known.made.empty()) line(2, "made", yaml_quoted(known.made));
    line(2, "coefficient_factor", exact_text(known.coefficient_factor));
    lines_.raw(together_text(known.together, 2));
  }

  void inspection() {
    if (!scenario_.calibrate_from) return;
    const scenario::Inspection& inspection = *scenario_.calibrate_from;
    line(0, "calibrate_from", "");
    line(2, "scenario", relative(inspection.scenario_file));
    number(2, "holes", inspection.holes, base::dimension::number);
    number(2, "measurement_error", inspection.measurement_error, base::dimension::length);
    line(2, "worn_height", list_text(inspection.worn_height, base::dimension::length));
  }

  const scenario::Scenario& scenario_;
  YamlLines lines_;
};

}  // namespace

std::string resolved_text(const scenario::Scenario& scenario) {
  return Writer(scenario).write();
}

}  // namespace dullcast::input
