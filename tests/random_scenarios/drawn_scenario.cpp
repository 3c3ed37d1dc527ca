#include "random_scenarios/drawn_scenario.hpp"

#include <algorithm>
#include <stdexcept>

#include "random_scenarios/dice.hpp"

namespace dullcast::random_scenarios {
namespace {

const std::vector<std::string> rocks{
    "clay",          "shale",  "siltstone",        "marl",      "limestone", "dolomite", "sandstone",
    "gravelly_sand", "gravel", "cherty_limestone", "quartzite", "granite",   "basalt",   "hard_sandstone"};

/// One scenario as it is drawn; what is drawn first bounds what follows.
class Draft {
 public:
  Draft(std::int64_t seed, int attempt)
      : seed_(seed), dice_(static_cast<std::uint64_t>(seed) * 1000u + static_cast<std::uint64_t>(attempt)) {}

  std::string text() {
    add("title: drawn " + std::to_string(seed_));
    large_ = dice_.chance(0.005);
    bit();
    fluid();
    column();
    plan();
    upsets();
    repeat();
    rules();
    models();
    stepping();
    return text_;
  }

 private:
  void add(const std::string& line) { text_ += line + "\n"; }
  std::string maybe(double probability, const std::string& words) {
    return dice_.chance(probability) ? ", " + words : "";
  }

  void bit() {
    const std::string start = used();
    if (dice_.chance(0.3)) {
      const std::string like = dice_.word({"four_blade_7_7_8", "five_blade_8_1_2", "three_blade_3_3_4"});
      diameter_ = like[0] == 'f' ? (like[1] == 'o' ? 0.200 : 0.216) : 0.095;
      add("bit: {like: " + like + lot() + start + "}");
      return;
    }
    diameter_ = dice_.chance(0.7) ? dice_.over_decades(0.05, 0.45) : dice_.over_decades(0.02, 2.0);
    const double cutter = std::clamp(diameter_ * dice_.over_decades(0.05, 0.3), 0.003, 0.05);
    const int blades = dice_.whole(1, diameter_ > 0.1 ? 8 : 4);
    const int most = large_ ? 12 : std::clamp(static_cast<int>(diameter_ / cutter), 1, 6);
    std::string counts;
    for (int blade = 0; blade < blades; ++blade)
      counts += (counts.empty() ? "" : ", ") + std::to_string(dice_.whole(1, most));
    const double exposure = cutter * dice_.between(0.3, 0.7);
    add("bit: {name: drawn, diameter: " + written(1e3 * diameter_, "mm") +
        ", grade: " + dice_.word({"standard", "premium"}) +
        ", body: " + dice_.word({"steel", "matrix", "soft_matrix"}) + lot() + start + ",");
    add("  cutter: {diameter: " + written(1e3 * cutter, "mm") +
        ", length: " + written(1e3 * cutter * dice_.between(0.5, 1.2), "mm") +
        ", table_thickness: " + written(1e3 * cutter * dice_.between(0.05, 0.2), "mm") +
        ", leach_depth: " + written(1e3 * cutter * dice_.one_of<double>({0.0, 0.0, 0.01, 0.04}), "mm") +
        ", bevel_width: " + written(1e3 * cutter * dice_.one_of<double>({0.0, 0.01, 0.03, 0.06}), "mm") +
        ", bevel_angle: " + written(dice_.between(5, 75), "deg") + "},");
    add("  blades: {cutters_per_blade: [" + counts + "], wing_sweep: " +
        written(dice_.between(-60, 90), "deg") + ", cone_angle: " + written(dice_.between(0, 40), "deg") +
        ", nose_share: " + written(dice_.between(0.1, 0.95), "") + ", gauge_angle: " +
        written(dice_.between(30, 90), "deg") + ", inner_back_rake: " + written(dice_.between(0, 40), "deg") +
        ", outer_back_rake: " + written(dice_.between(0, 40), "deg") + ", side_rake: " +
        written(dice_.between(-30, 30), "deg") + ", crowding: " + written(dice_.between(0.4, 1.2), "") +
        ", exposure: " + written(1e3 * exposure, "mm") + "}" +
        maybe(0.5, "ports: {count: " + std::to_string(dice_.whole(1, 8)) + ", diameter: " +
                       written(1e3 * diameter_ * dice_.over_decades(0.01, 0.12), "mm") + "}") +
        maybe(0.3, "junk_slot_share: " + written(dice_.between(0.05, 0.9), "")) + "}");
  }

  std::string lot() { return maybe(0.5, "lot: " + dice_.word({"sound", "mixed", "poor"})); }

  /// How a used bit starts, in shares of what it has.
  std::string used() {
    if (dice_.chance(0.5)) return {};
    return maybe(0.6, "starting_wear: " + written(dice_.over_decades(0.01, 4.0), "mm")) +
           maybe(0.3, "starting_damage: " + written(dice_.one_of<double>({0.5, 0.99, 1.0}), "")) +
           maybe(0.3, "starting_chip_hazard: " + written(dice_.over_decades(1e-3, 10.0), "")) +
           maybe(0.2, "starting_lost: [1]") + maybe(0.2, "starting_table_gone: [2]") +
           maybe(0.2, "starting_erosion: " + written(dice_.between(0, 3), "mm")) +
           maybe(0.2, "starting_blade_wear: " + written(dice_.between(0, 1), "mm"));
  }

  void fluid() {
    air_ = dice_.chance(0.3);
    const double inlet = air_ ? dice_.between(-20, 90) : dice_.between(1, 95);
    add("fluid: {name: " + (air_ ? "air" : dice_.word({"water", "bentonite_mud", "polymer_mud"})) +
        ", inlet_temperature: " + written(inlet, "degC") + "}");
  }

  void column() {
    const int layers = large_ && dice_.chance(0.5) ? dice_.whole(20, 200) : dice_.whole(1, 4);
    const double usual = large_ && layers < 20 ? 50.0 : 1.0;  // m
    std::string list;
    for (int i = 0; i < layers; ++i) {
      depth_ += usual * dice_.over_decades(0.02, 5.0);
      ends_.push_back(depth_);
      list +=
          "    - {rock: " + dice_.one_of(rocks) + ", bottom: " + written(depth_, "m") + own_rock() + "}\n";
    }
    add("column:");
    add("  water_level: " +
        written(dice_.one_of<double>({0.0, 0.5 * depth_, 10.0 * depth_, dice_.over_decades(0.1, 1000)}),
                "m"));
    add("  surface_temperature: " + written(dice_.between(-20, 60), "degC"));
    add("  temperature_gradient: " + written(dice_.over_decades(1, 200), "K/km"));
    add("  layers:");
    text_ += list;
  }

  std::string own_rock() {
    const double strength = dice_.over_decades(0.1, 500.0);
    return maybe(0.2, "unconfined_strength: " + written(strength, "MPa")) +
           maybe(0.1, "cerchar_abrasivity: " + written(dice_.between(0, 6.5), "")) +
           maybe(0.1, "friction_angle: " + written(dice_.between(1, 55), "deg")) +
           maybe(0.1, "conductivity: " + written(dice_.over_decades(0.2, 8.0), "W/(m K)")) +
           maybe(0.1, "stickiness: " + written(dice_.share(), "")) +
           maybe(0.1, "inclusion_share: " + written(dice_.between(0, 0.6), "") +
                          ", inclusion_size: " + written(dice_.over_decades(1, 200), "mm") +
                          ", inclusion_strength: " + written(dice_.over_decades(5, 400), "MPa")) +
           maybe(0.2, "excess_pressure: " + written(dice_.over_decades(0.01, 500), "bar"));
  }

  /// A weight on bit from hardly any to what crushes everything.
  std::string weight() {
    return written(diameter_ * dice_.over_decades(2e3, 5e5), "N");  // N per m of diameter
  }

  std::string flow() {
    if (dice_.chance(0.08)) return written(0.0, "m3/s");
    const double area = 0.785 * diameter_ * diameter_;
    const double speed = air_ ? dice_.over_decades(0.1, 60.0) : dice_.over_decades(1e-3, 5.0);
    return written(std::min(area * speed, 9.9), "m3/s");
  }

  void plan() {
    add("plan:");
    const int intervals = dice_.chance(0.7) ? 1 : dice_.whole(2, 3);
    for (int i = 0; i < intervals; ++i) {
      const bool last = i + 1 == intervals;
      add("  - {" + (last ? "" : "to: " + written(depth_ * (i + 1.0) / intervals, "m") + ", ") +
          "weight_on_bit: " + weight() + ", rotary_speed: " + written(dice_.over_decades(2, 400), "rpm") +
          ", flow: " + flow() +
          (air_ ? maybe(0.4, "mist_water: " + written(dice_.over_decades(1e-6, 1e-3), "m3/s")) : "") +
          maybe(0.3, "feed_limit: " + written(dice_.over_decades(0.2, 200), "m/h")) + "}");
    }
  }

  void upsets() {
    const int count = dice_.chance(0.4) ? 0 : dice_.whole(1, 4);
    if (count == 0) return;
    add("upsets:");
    for (int i = 0; i < count; ++i) {
      const double at = dice_.chance(0.4) ? (dice_.chance(0.5) ? 0.0 : ends_[ends_.size() / 2] * 0.999)
                                          : depth_ * dice_.between(0, 0.98);
      std::string what;
      switch (dice_.whole(0, 5)) {
        case 0:
          what = "pump: off";
          break;
        case 1:
          what = "flow: " + flow();
          break;
        case 2:
          what = "weight_on_bit: " + (dice_.chance(0.5) ? written(0.0, "N") : weight());
          break;
        case 3:
          what = "rotary_speed: " + written(dice_.chance(0.5) ? 0.0 : dice_.over_decades(1, 600), "rpm");
          break;
        case 4:
          what = "pump: off, rotary_speed: 0 rpm";
          break;
        default:
          what = "weight_on_bit: " + weight() +
                 ", rotary_speed: " + written(dice_.over_decades(10, 400), "rpm") + ", flow: " + flow();
      }
      add("  - {from: " + written(at, "m") + ", lasts: " + written(dice_.over_decades(0.1, 3600), "s") +
          ", " + what + maybe(0.4, "hole: every") + "}");
    }
  }

  void repeat() {
    add("repeat: {holes: " + std::to_string(dice_.chance(0.6) ? 1 : dice_.whole(2, large_ ? 8 : 3)) +
        ", stop_at: " + dice_.word({"last_hole", "rework_due", "beyond_repair"}) +
        ", connection_every: " + written(dice_.one_of<double>({1, 3, 6, 9}), "m") +
        ", connection_time: " + written(dice_.one_of<double>({0, 0, 1, 5, 60}), "min") +
        ", trip_time: " + written(dice_.one_of<double>({0, 1, 12}), "h") +
        ", pump_at_connections: " + dice_.word({"on", "off"}) + "}");
  }

  void rules() {
    std::string some = maybe(0.5, "worn_height: " + written(dice_.over_decades(0.01, 10), "mm")) +
                       maybe(0.3, "outer_dull_grade: " + std::to_string(dice_.whole(1, 8))) +
                       maybe(0.3, "heat_damage: " + written(dice_.between(0.01, 1), "")) +
                       maybe(0.3, "speed_share_of_new: " + written(dice_.between(0.05, 1), "")) +
                       maybe(0.3, "chip_probability: " + written(dice_.between(0.01, 0.99), "")) +
                       maybe(0.3, "gauge_loss: " + written(dice_.over_decades(0.01, 10), "mm")) +
                       maybe(0.3, "lost_cutters: " + std::to_string(dice_.whole(1, 3)));
    if (!some.empty()) add("rework: {" + some.substr(2) + "}");
  }

  void models() {
    std::string some =
        maybe(0.1, "flat_friction: " + written(dice_.between(0.05, 0.95), "")) +
        maybe(0.1, "drilling_efficiency: " + written(dice_.between(0.1, 1.0), "")) +
        maybe(0.1, "abrasion_coefficient: " + written(dice_.over_decades(1e-18, 1e-14), "m2/N")) +
        maybe(0.1, "crushed_heat_share: " + written(dice_.share(), "")) +
        maybe(0.1, "pocket_conductance: " + written(dice_.over_decades(100, 1e5), "W/(m2 K)")) +
        maybe(0.1, "warm_skin_depth: " + written(dice_.over_decades(1, 30), "mm")) +
        maybe(0.1, "bottom_unevenness: " + written(dice_.over_decades(0.01, 5), "mm"));
    if (!some.empty()) add("models: {" + some.substr(2) + "}");
  }

  void stepping() {
    add("chance: {draw: " + dice_.word({"yes", "no"}) + ", seed: " + std::to_string(seed_) + "}");
    const std::string tolerance =
        dice_.chance(0.05) ? dice_.word({"1e-3", "1e-4"}) : dice_.word({"3e-2", "1e-2"});
    const double every = dice_.chance(0.5) ? 0.0 : depth_ * dice_.one_of<double>({0.02, 0.1, 0.5});
    add("stepping: {relative_tolerance: " + tolerance + ", output_every: " +
        (dice_.chance(0.3) ? "chosen" : written(every, "m")) + maybe(0.1, "warming: followed") + "}");
    if (dice_.chance(0.2))
      add("pump: {pressure_limit: " + written(dice_.over_decades(0.5, 300), "bar") + "}");
  }

  std::int64_t seed_;
  Dice dice_;
  std::string text_;
  double diameter_ = 0.2, depth_ = 0.0;  // m
  std::vector<double> ends_;             // m, of layers
  bool air_ = false, large_ = false;
};

}  // namespace

std::string drawn_text(std::int64_t seed, int attempt) {
  return Draft(seed, attempt).text();
}

DrawnScenario drawn_scenario(const input::ScenarioReader& reader, std::int64_t seed) {
  DrawnScenario drawn;
  for (std::string why;; ++drawn.refused) {
    constexpr int most = 40;
    if (drawn.refused == most)
      throw std::runtime_error("none of " + std::to_string(most) + " texts can be read; the last: " + why);
    drawn.text = drawn_text(seed, drawn.refused);
    std::vector<input::Warning> warnings;
    try {
      drawn.scenario = reader.read_text(drawn.text, "drawn.yaml", {}, warnings);
      return drawn;
    } catch (const input::ScenarioErrors& errors) {
      why = errors.messages().front();
    }
  }
}

}  // namespace dullcast::random_scenarios
