#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/scenario/learned.hpp"
#include "engine/scenario/model_numbers.hpp"
#include "engine/scenario/records.hpp"
#include "models/geometry/bit_layout.hpp"

/// A scenario as a value: everything one run needs, checked, in SI units (kelvin, radians, revolutions per
/// second). Two scenarios can live in one process; nothing here is shared or global.
namespace dullcast::scenario {

/// Where something was written. line and column count from 1; 0 when the value came from a default.
struct Location {
  std::string file;
  int line = 0;
  int column = 0;
};

struct Costs {
  std::string currency = "$";
  double bit = 0.0;                // money
  double rig_per_second = 0.0;     // money/s
  double rework = 0.0;             // money for a usual rework
  double replacement = 0.0;        // money for a new bit, when past repair
  double fuel_energy = 0.0;        // J/m3 of fuel
  double engine_efficiency = 0.0;  // 1, fuel heat to work at the bit
  double cutter = 0.0;             // money for one new cutter brazed in
  double pocket = 0.0;             // money for one pocket built up and cut anew
};

/// Another way to drill the same column, to compare with.
struct OtherMethod {
  std::string name;                  // as the scenario calls it
  double rate_of_penetration = 0.0;  // m/s over the whole column
  double power = 0.0;                // W of fuel heat while drilling (engine and compressor)
  double consumables = 0.0;          // money a metre
  double rig_per_second = 0.0;       // money/s
};

/// What the driller sets over one depth interval.
struct OperatingInterval {
  double from = 0.0, to = 0.0;          // m, depth
  std::optional<double> weight_on_bit;  // N, stated as a whole; otherwise from the parts below
  double pull_down = 0.0;               // N
  double holdback = 0.0;                // N
  double rotary_speed = 0.0;            // rev/s
  double flow = 0.0;                    // m3/s (a gas: as free air)
  double mist_water = 0.0;              // m3/s of water carried by air
  std::optional<double> feed_limit;     // m/s
};

/// A stretch of time in which something goes otherwise than planned. What is not given stays as planned.
struct Upset {
  double from = 0.0;                    // m, depth at which it begins
  int hole = 0;                         // in this hole, counted from 0; -1: in every hole
  double lasts = 0.0;                   // s
  std::optional<double> flow;           // m3/s
  std::optional<double> mist_water;     // m3/s
  std::optional<double> weight_on_bit;  // N
  std::optional<double> rotary_speed;   // rev/s
  Location location;
};

/// Pipe and collars below the head, which put their buoyed weight on the bit.
struct StringRecord {
  double pipe_diameter = 0.0;     // m outside; it narrows the annulus
  double pipe_weight = 0.0;       // N/m in air
  double collar_weight = 0.0;     // N/m in air
  double collar_length = 0.0;     // m
  double steel_density = 7850.0;  // kg/m3
};

struct Layer {
  double top = 0.0, bottom = 0.0;  // m
  RockRecord rock;                 // with the layer's own overrides applied
  double excess_pressure = 0.0;    // Pa, p_d
  Location location;
};

struct Column {
  std::vector<Layer> layers;            // from the surface down, touching, none overlapping
  double water_level = 0.0;             // m below surface (an air hole: where ground water stands)
  double surface_temperature = 288.15;  // K, of the ground
  double temperature_gradient = 0.0;    // K/m
};

enum class StopAt { rework_due, beyond_repair, last_hole };

struct Repeat {
  int holes = 1;
  StopAt stop_at = StopAt::beyond_repair;
  double trip_time = 0.0;            // s a hole: moving in and out of it
  double connection_every = 6.0;     // m
  double connection_time = 0.0;      // s each, off bottom
  bool pump_at_connections = false;  // the pump keeps running while a rod is added
};

/// Rework is due at the first of the rules that are given.
struct ReworkRules {
  std::optional<double> worn_height;         // m, of any cutter
  std::optional<double> outer_dull_grade;    // 0..8
  std::optional<double> heat_damage;         // 0..1, of any cutter
  std::optional<double> speed_share_of_new;  // ROP over what the same bit new would do, 0..1
  std::optional<double> chip_probability;    // 0..1, of any cutter
  std::optional<double> gauge_loss;          // m, of hole diameter
  std::optional<double> lost_cutters;        // cutters lost from the bit or bared of diamond
  double beyond_repair_share = 0.9;          // worn height over exposure at which pockets start to go
  double least_progress = 0.0;               // m/s: slower than this the bit has stopped drilling
};

/// Steel and openings of a bit beside its cutters.
struct BitBuild {
  double port_area = 0.0;         // m2, all ports; 0: not known, no port pressure drop
  double port_diameter = 0.0;     // m, of one
  double junk_slot_share = 0.0;   // 1, open slot area over hole area; 0: the models' number
  double blade_height = 0.0;      // m, root to tip
  double blade_thickness = 0.0;   // m, along travel
  double gauge_pad_length = 0.0;  // m, along the axis
  double gauge_pad_width = 0.0;   // m, along the circumference, of one blade's pad
};

/// One kind of cutter on a bit; its shape stands in the layout.
struct CutterKind {
  std::string name = "usual";
  GradeRecord grade;
};

/// The first kind with the same grade as kind k: k itself unless an earlier one has it.
std::size_t first_with_grade(const std::vector<CutterKind>& kinds, std::size_t k);

/// What was found on a bit and done to it since the earlier result that it goes on from. What is not said
/// stays as the result left it; an empty array says nothing.
struct SinceResult {
  Eigen::ArrayXd worn_height;    // m, as measured; NaN where not
  Eigen::ArrayXi lost;           // 1 where a cutter was found missing
  Eigen::ArrayXi table_gone;     // 1 where its diamond table was
  Eigen::ArrayXi chipped;        // 1 where its edge was found chipped
  Eigen::ArrayXi renewed;        // 1 where a new cutter was brazed in
  Eigen::ArrayXi turned;         // 1 where the cutter was turned in its pocket, a fresh edge outward
  bool blades_built_up = false;  // blades and pockets
  bool pads_built_up = false;    // gauge pads
};

struct BitRecord {
  std::string name;
  BitBuild build;
  LotRecord lot;
  geometry::BitLayout layout;        // laid out and checked
  std::vector<CutterKind> kinds{1};  // one per shape of the layout, the bit's usual kind first
  BodyRecord body;
  Eigen::ArrayXd starting_wear;         // m, worn height of every cutter at the start
  Eigen::ArrayXd starting_damage;       // 1, heat damage of every cutter at the start
  Eigen::ArrayXd starting_chip_hazard;  // 1, integral of each edge's chip hazard before the start
  Eigen::ArrayXi starting_lost;         // 1 where a cutter is missing at the start
  Eigen::ArrayXi starting_table_gone;   // 1 where its diamond table is missing at the start
  Eigen::ArrayXi starting_chipped;      // 1 where its edge has chipped before the start
  double starting_erosion = 0.0;        // m, of blades and pockets
  double starting_blade_wear = 0.0;     // m, rubbed off the blades
  double starting_pad_wear = 0.0;       // m, rubbed off the gauge pads
  std::string continues;                // path of an earlier result whose end state is the start, or empty
  SinceResult since_result;             // what has changed on it since then
  const GradeRecord& grade_of(Eigen::Index cutter) const {
    return kinds[static_cast<std::size_t>(layout.kind(cutter))].grade;
  }
};

/// What is left to chance: carried as probabilities, or drawn.
struct RandomEvents {
  bool drawn = false;
  std::int64_t seed = 1;
  int earlier_runs = 0;  // that the bit made under this seed: strengths are the same, luck with chips new
};

/// One inspected bit: the scenario it ran and what was measured on it.
struct Inspection {
  std::string scenario_file;       // of the run it made, seen from where the program runs
  double holes = 0.0;              // holes it drilled of that scenario, 0: all of them
  Eigen::ArrayXd worn_height;      // m, one per cutter, NaN where not measured
  double measurement_error = 0.0;  // m, one standard deviation of a reading
  Location location;
};

/// How finely and how accurately the run is stepped and recorded.
/// How a run goes through the seconds to minutes in which heat moves after a change of rock or settings: step
/// by step, or only where what that adds to wear, damage and chips is past the tolerance.
enum class Warming { followed, where_it_matters };

struct Stepping {
  double relative_tolerance = 1e-3;
  /// m of hole between recorded rows; 0: ends of layers only; none: the program chooses them, densest where
  /// heat moves. Upsets are always kept.
  std::optional<double> output_every;
  Warming warming = Warming::where_it_matters;
};

struct Scenario {
  std::string title;
  std::string file;  // path it was read from, as it was given
  std::string text;  // resolved YAML: every default and override written out
  BitRecord bit;
  FluidRecord fluid;
  double inlet_temperature = 288.15;  // K, of the fluid arriving at the bit
  StringRecord string;
  double pump_pressure_limit = 0.0;     // Pa at the bit (ports and slots); 0: none known
  std::vector<OperatingInterval> plan;  // sorted, covering the column
  std::vector<Upset> upsets;            // in the order written
  RandomEvents random_events;
  std::optional<OtherMethod> other_method;
  Column column;
  Repeat repeat;
  ReworkRules rules;
  Costs costs;
  Stepping stepping;
  ModelNumbers numbers;
  std::optional<Inspection> calibrate_from;
  std::optional<Learned> learned;  // what inspected bits have told of the numbers, which are here already
  double weight_limit = 0.0;       // N, rule of thumb 1,000 lbf per inch unless given
};

/// Calls visit(name, quantity) for every uncertain number of the scenario in a fixed order, each once by
/// name: "abrasion_coefficient", "rock sandstone: cerchar_abrasivity", ... A rock used in several layers
/// without overrides is visited once and the change is carried to all its layers.
void for_each_number(Scenario& scenario,
                     const std::function<void(const std::string& name, Quantity& quantity)>& visit);

}  // namespace dullcast::scenario
