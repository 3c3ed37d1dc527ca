#include "engine/scenario/scenario_writer.hpp"

#include <charconv>
#include <cmath>
#include <filesystem>
#include <map>
#include <sstream>

#include "engine/scenario/located_yaml.hpp"
#include "engine/scenario/number_fields.hpp"

namespace dullcast {

namespace {

/// The shortest text that reads back as the same number.
std::string exact(double value) {
  char buffer[32];
  const auto [end, failure] = std::to_chars(buffer, buffer + sizeof buffer, value);
  return failure == std::errc() ? std::string(buffer, end) : std::string("0");
}

std::string with_unit(double value, const Dimension& dimension) {
  const std::string unit = dimension.label;
  return unit.empty() ? exact(value) : "\"" + exact(value) + " " + unit + "\"";
}

std::string money(double value, const std::string& currency, const char* per) {
  return yaml_quoted(exact(value) + " " + currency + per);
}

std::string quantity_text(const Quantity& quantity, const Dimension& dimension) {
  return "{low: " + with_unit(quantity.low, dimension) +
         ", central: " + with_unit(quantity.central, dimension) +
         ", high: " + with_unit(quantity.high, dimension) + ", mark: " + quantity.mark +
         ", source: " + yaml_quoted(quantity.source) + "}";
}

bool same(const Quantity& one, const Quantity& other) {
  return one.low == other.low && one.central == other.central && one.high == other.high &&
         one.mark == other.mark && one.source == other.source;
}

class Writer {
 public:
  explicit Writer(const Scenario& scenario) : scenario_(scenario) {}

  std::string write() {
    line(0, "title", yaml_quoted(scenario_.title));
    bit();
    line(0, "weight_limit", with_unit(scenario_.weight_limit, dimension::force));
    fluid_and_string();
    column();
    plan();
    rules();
    costs();
    records();
    inspection();
    return out_.str();
  }

 private:
  void line(int indent, std::string_view key, const std::string& value) {
    out_ << std::string(static_cast<std::size_t>(indent), ' ') << key << ":" << (value.empty() ? "" : " ")
         << value << "\n";
  }
  void number(int indent, std::string_view key, double value, const Dimension& dimension) {
    line(indent, key, with_unit(value, dimension));
  }
  template <class Record>
  void numbers(int indent, const Record& record) {
    for (const auto& field : number_fields(record)) {
      line(indent, field.key, quantity_text(record.*field.member, *field.wanted));
    }
  }
  std::string relative(const std::string& path) const {
    const auto folder = std::filesystem::path(scenario_.file).parent_path();
    const auto result = std::filesystem::path(path).lexically_relative(folder);
    return yaml_quoted(result.empty() ? path : result.string());
  }

  void bit() {
    const BitRecord& bit = scenario_.bit;
    const BitLayout& layout = bit.layout;
    line(0, "bit", "");
    line(2, "name", yaml_quoted(bit.name));
    number(2, "diameter", 2.0 * layout.bit_radius, dimension::length);
    line(2, "grade", yaml_quoted(bit.grade.name));
    line(2, "body", yaml_quoted(bit.body.name));
    line(2, "cutter", "");
    number(4, "diameter", 2.0 * layout.shape.radius, dimension::length);
    number(4, "length", layout.shape.length, dimension::length);
    number(4, "table_thickness", layout.shape.table_thickness, dimension::length);
    number(4, "leach_depth", layout.shape.leach_depth, dimension::length);
    number(4, "bevel_width", layout.shape.bevel_width, dimension::length);
    number(4, "bevel_angle", layout.shape.bevel_angle, dimension::angle);
    line(2, "cutters", "");
    for (Eigen::Index i = 0; i < layout.count(); ++i) {
      const auto item = [&](const char* key, double value, const Dimension& dimension) {
        return std::string(key) + ": " + with_unit(value, dimension);
      };
      out_ << "    - {" << item("radius", layout.radius(i), dimension::length) << ", "
           << item("azimuth", layout.azimuth(i), dimension::angle) << ", "
           << item("height", 0.0 - layout.depth(i), dimension::length) << ", "
           << item("back_rake", layout.back_rake(i), dimension::angle) << ", "
           << item("side_rake", layout.side_rake(i), dimension::angle) << ", "
           << item("profile_angle", layout.profile_angle(i), dimension::angle) << ", "
           << item("exposure", layout.exposure(i), dimension::length) << ", blade: " << layout.blade(i) + 1
           << "}\n";
    }
    if (!bit.continues.empty()) {
      line(2, "continues", relative(bit.continues));
    } else {
      line(2, "starting_wear", list(bit.starting_wear, dimension::length));
      line(2, "starting_damage", list(bit.starting_damage, dimension::number));
    }
  }

  static std::string list(const Eigen::ArrayXd& values, const Dimension& dimension) {
    std::string result = "[";
    for (Eigen::Index i = 0; i < values.size(); ++i) {
      result +=
          (i > 0 ? ", " : "") + (std::isnan(values(i)) ? "not measured" : with_unit(values(i), dimension));
    }
    return result + "]";
  }

  void fluid_and_string() {
    line(0, "fluid", "");
    line(2, "name", yaml_quoted(scenario_.fluid.name));
    number(2, "inlet_temperature", scenario_.inlet_temperature, dimension::temperature);
    line(0, "string", "");
    number(2, "pipe_weight", scenario_.string.pipe_weight, dimension::weight_per_length);
    number(2, "collar_weight", scenario_.string.collar_weight, dimension::weight_per_length);
    number(2, "collar_length", scenario_.string.collar_length, dimension::depth);
    number(2, "steel_density", scenario_.string.steel_density, dimension::density);
  }

  /// The record of each rock as its first layer has it; other layers write what differs.
  std::map<std::string, const RockRecord*> rocks() const {
    std::map<std::string, const RockRecord*> result;
    for (const auto& layer : scenario_.column.layers) result.try_emplace(layer.rock.name, &layer.rock);
    return result;
  }

  void column() {
    const Column& column = scenario_.column;
    line(0, "column", "");
    number(2, "water_level", column.water_level, dimension::depth);
    number(2, "surface_temperature", column.surface_temperature, dimension::temperature);
    number(2, "temperature_gradient", column.temperature_gradient, dimension::temperature_gradient);
    line(2, "layers", "");
    const auto base = rocks();
    for (const auto& layer : column.layers) {
      out_ << "    - rock: " << yaml_quoted(layer.rock.name) << "\n";
      number(6, "top", layer.top, dimension::depth);
      number(6, "bottom", layer.bottom, dimension::depth);
      number(6, "excess_pressure", layer.excess_pressure, dimension::pressure);
      const RockRecord& plain = *base.at(layer.rock.name);
      for (const auto& field : number_fields(layer.rock)) {
        const Quantity& quantity = layer.rock.*field.member;
        if (!same(quantity, plain.*field.member)) line(6, field.key, quantity_text(quantity, *field.wanted));
      }
    }
  }

  void plan() {
    line(0, "plan", "");
    for (const auto& interval : scenario_.plan) {
      out_ << "  - from: " << with_unit(interval.from, dimension::depth) << "\n";
      number(4, "to", interval.to, dimension::depth);
      if (interval.weight_on_bit) {
        number(4, "weight_on_bit", *interval.weight_on_bit, dimension::force);
      } else {
        number(4, "pull_down", interval.pull_down, dimension::force);
        number(4, "holdback", interval.holdback, dimension::force);
      }
      number(4, "rotary_speed", interval.rotary_speed, dimension::rotary_speed);
      number(4, "flow", interval.flow, dimension::flow);
      number(4, "mist_water", interval.mist_water, dimension::flow);
      if (interval.feed_limit) number(4, "feed_limit", *interval.feed_limit, dimension::speed);
    }
  }

  void rules() {
    const Repeat& repeat = scenario_.repeat;
    line(0, "repeat", "");
    line(2, "holes", std::to_string(repeat.holes));
    line(2, "stop_at",
         repeat.stop_at == StopAt::rework_due      ? "rework_due"
         : repeat.stop_at == StopAt::beyond_repair ? "beyond_repair"
                                                   : "last_hole");
    number(2, "trip_time", repeat.trip_time, dimension::time);
    number(2, "connection_every", repeat.connection_every, dimension::depth);
    number(2, "connection_time", repeat.connection_time, dimension::time);
    const ReworkRules& rules = scenario_.rules;
    line(0, "rework", "");
    if (rules.worn_height) number(2, "worn_height", *rules.worn_height, dimension::length);
    if (rules.outer_dull_grade) number(2, "outer_dull_grade", *rules.outer_dull_grade, dimension::number);
    if (rules.heat_damage) number(2, "heat_damage", *rules.heat_damage, dimension::number);
    if (rules.speed_share_of_new)
      number(2, "speed_share_of_new", *rules.speed_share_of_new, dimension::number);
    number(2, "beyond_repair_share", rules.beyond_repair_share, dimension::number);
    number(2, "least_progress", rules.least_progress, dimension::speed);
  }

  void costs() {
    const Costs& costs = scenario_.costs;
    line(0, "costs", "");
    line(2, "currency", yaml_quoted(costs.currency));
    line(2, "bit", money(costs.bit, costs.currency, ""));
    line(2, "rig", money(costs.rig_per_second, costs.currency, "/s"));
    line(2, "rework", money(costs.rework, costs.currency, ""));
    line(2, "replacement", money(costs.replacement, costs.currency, ""));
    number(2, "fuel_energy", costs.fuel_energy, dimension::fuel_energy);
    number(2, "engine_efficiency", costs.engine_efficiency, dimension::number);
    line(0, "stepping", "");
    number(2, "relative_tolerance", scenario_.stepping.relative_tolerance, dimension::number);
    number(2, "output_every", scenario_.stepping.output_every, dimension::depth);
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
    line(2, yaml_quoted(scenario_.bit.grade.name), "");
    numbers(4, scenario_.bit.grade);
    line(0, "bodies", "");
    line(2, yaml_quoted(scenario_.bit.body.name), "");
    numbers(4, scenario_.bit.body);
    line(0, "fluids", "");
    line(2, yaml_quoted(scenario_.fluid.name), "");
    line(4, "kind", scenario_.fluid.kind == FluidKind::liquid ? "liquid" : "gas");
    numbers(4, scenario_.fluid);
    line(0, "models", "");
    numbers(2, scenario_.numbers);
  }

  void inspection() {
    if (!scenario_.calibrate_from) return;
    const Inspection& inspection = *scenario_.calibrate_from;
    line(0, "calibrate_from", "");
    line(2, "scenario", relative(inspection.scenario_file));
    number(2, "holes", inspection.holes, dimension::number);
    number(2, "measurement_error", inspection.measurement_error, dimension::length);
    line(2, "worn_height", list(inspection.worn_height, dimension::length));
  }

  const Scenario& scenario_;
  std::ostringstream out_;
};

}  // namespace

std::string resolved_text(const Scenario& scenario) {
  return Writer(scenario).write();
}

}  // namespace dullcast
