#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <vector>

/// What a run leaves behind, as values. SI units (kelvin, seconds, metres); cutters, layers and holes are
/// counted from 0 here and from 1 wherever a person reads them.
namespace dullcast::simulation {

/// One recorded instant.
struct HistoryRow {
  double time = 0.0;           // s since the run began: drilling, connections and trips
  double rotating_time = 0.0;  // s on bottom
  int hole = 0, layer = 0;
  double depth = 0.0;                // m in this hole
  double footage = 0.0;              // m drilled in all holes
  double weight = 0.0;               // N on the bit
  double rotary_speed = 0.0;         // rev/s
  double flow = 0.0;                 // m3/s
  double depth_of_cut = 0.0;         // m/rev
  double rate_of_penetration = 0.0;  // m/s
  double torque = 0.0;               // N m
  double blade_weight = 0.0;         // N carried by rubbing blades
  double energy = 0.0;               // J spent at the bit so far
  double fluid_temperature = 0.0;    // K at the hole bottom
  double body_temperature = 0.0;     // K
  double rock_temperature = 0.0;     // K of the bottom's warm skin
  double water_share = 1.0;          // 1, water at the bottom over its full amount
  double solids_fraction = 0.0;      // 1, cuttings in the junk slots
  double plug_height = 0.0;          // m of packed cuttings over the bit
  double flow_past_bit = 0.0;        // m3/s that passes: less than the pump's when slots pack
  double bit_pressure_drop = 0.0;    // Pa, ports and slots
  double lateral_force = 0.0;        // N, imbalance carried by the gauge
  double eroded = 0.0;               // m, of blades and pockets
  double blade_wear = 0.0;           // m, rubbed off the blades
  double pad_wear = 0.0;             // m, rubbed off the gauge pads
  double gauge_loss = 0.0;           // m, of hole diameter
  // One entry per cutter:
  Eigen::ArrayXd area_of_cut;          // m2
  Eigen::ArrayXd tangential_force;     // N
  Eigen::ArrayXd normal_force;         // N
  Eigen::ArrayXd contact_force;        // N, the part of the normal force that rubs
  Eigen::ArrayXd flat_temperature;     // K
  Eigen::ArrayXd table_temperature;    // K, of the diamond table by the contact
  Eigen::ArrayXd carbide_temperature;  // K, of the carbide behind the contact
  Eigen::ArrayXd worn_height;          // m, in the face
  Eigen::ArrayXd flat_area;            // m2, diamond and carbide of the flat
  Eigen::ArrayXd heat_damage;          // 1; 1 = ruined table
  Eigen::ArrayXd chip_hazard;          // 1, integral of the chip hazard since the edge was new
  Eigen::ArrayXd film;                 // 1 where a film of steam covers the diamond, else 0
};

/// Whether rows are recorded.
enum class Rows { kept, left_out };

struct History {
  std::vector<HistoryRow> rows;
};

/// One layer drilled once.
struct LayerPassage {
  int hole = 0, layer = 0;
  std::string rock;
  double top = 0.0, bottom = 0.0;         // m
  double rotating_time = 0.0;             // s
  double mean_rate_of_penetration = 0.0;  // m/s
  double mean_weight = 0.0;               // N, over rotating time
  double mean_torque = 0.0;               // N m, over rotating time
  double energy = 0.0;                    // J
  double hottest_flat = 0.0;              // K
  int hottest_cutter = 0;
  double greatest_wear_gain = 0.0;  // m, of any cutter
  int greatest_wear_cutter = 0;
  double chip_hazard = 0.0;                // 1, gained by all cutters: expected chips
  double greatest_chip_probability = 0.0;  // 1, gained by one cutter
  int greatest_chip_cutter = 0;
  double greatest_load_share = 0.0;   // 1, of any pocket, bond or blade: load over median strength
  double mean_solids_fraction = 0.0;  // 1, over rotating time
  double lifted_share = 1.0;          // 1, least mass share of cuttings that the uphole flow lifts
  double balling_risk = 0.0;          // 1, 0..1, greatest
  double time_in_film = 0.0;          // s, longest of any cutter under a film of steam
};

struct HoleSummary {
  int hole = 0;
  double depth_reached = 0.0;  // m
  double rotating_time = 0.0;  // s
  double elapsed_time = 0.0;   // s, with connections and the trip
  int connections = 0;
  double energy = 0.0;                                       // J
  double hottest_flat = 0.0;                                 // K
  double greatest_worn_height = 0.0;                         // m, at the hole's end
  std::optional<double> inner_dull_grade, outer_dull_grade;  // 0..8; none for an empty zone
};

/// The kinds of event. Their names in files are the words returned by event_name().
enum class EventKind {
  layer_entered,
  hole_finished,
  rework_due,
  beyond_repair,
  table_ruined,      // a cutter's heat damage reached 1
  blade_rubs,        // a blade begins to carry weight
  stopped_drilling,  // slower than the least progress
  fluid_boils,       // water at the bit reaches saturation and begins to boil away
  string_too_heavy,  // the string alone puts on more than the weight limit
  chip,              // an edge chipped (drawn)
  cutter_lost,       // a cutter left its pocket
  table_lost,        // the bond between diamond and carbide failed
  blade_sheared,     // a blade broke off; ends the run
  film_forms,        // a film of steam takes over a cutter's surface
  surface_rewets,    // and collapses again
  runs_dry,          // the last water at the bottom boiled away
  slots_pack,        // cuttings fill the junk slots
  slots_clear,       // and are flushed out again
  upset_begins,
  upset_ends,
  quench  // cold flow meets hot diamond
};
const char* event_name(EventKind kind);

/// Something that happened. Which of number, value and word say anything depends on the kind.
struct Event {
  EventKind kind = EventKind::layer_entered;
  double time = 0.0;  // s
  int hole = 0;
  double depth = 0.0;     // m
  double footage = 0.0;   // m
  int cutter = -1;        // -1 where it is about no one cutter
  std::string text = {};  // one sentence for people; left empty here, written by whoever tells it
  int number = 0;         // of the upset or the blade, counted from 1
  // chip: m of worn height; quench: K of the hottest table; blade_rubs: m, radius; stopped_drilling: N asked
  double value = 0.0;
  std::string word = {};  // layer_entered: the rock; rework_due: the rule
};

/// The bit at one instant, enough to go on from.
struct BitCondition {
  Eigen::ArrayXd worn_height;  // m
  Eigen::ArrayXd heat_damage;  // 1
  std::optional<double> inner_dull_grade, outer_dull_grade;
  Eigen::ArrayXd chip_hazard;  // 1, integral since the edge was new; chance of a chip 1 - exp(-it)
  Eigen::ArrayXi chips;        // chips so far: 1 where an edge was chipped at the start, and those drawn
  Eigen::ArrayXi lost;         // 1 where the cutter is gone
  Eigen::ArrayXi table_gone;   // 1 where its diamond table is gone
  Eigen::ArrayXd pocket_load;  // 1, greatest load over median strength that its pocket has borne
  Eigen::ArrayXd bond_load;    // 1, and its diamond-carbide bond
  double blade_load = 0.0;     // 1, greatest of any blade
  double eroded = 0.0;         // m
  double blade_wear = 0.0;     // m
  double pad_wear = 0.0;       // m
  double gauge_loss = 0.0;     // m, of hole diameter
};

/// The point at which something fell due.
struct Milestone {
  int hole = 0;
  double depth = 0.0;          // m in that hole
  double footage = 0.0;        // m in all
  double rotating_time = 0.0;  // s
  double elapsed_time = 0.0;   // s
  double energy = 0.0;         // J
  std::string rule;            // which rule of the scenario: "worn_height", "outer_dull_grade", ...
  std::vector<int> cutters;    // those that the rule points at
  BitCondition condition;
};

/// How much of a rule's allowance was used when the run ended (or rework fell due): 1 = due.
struct RuleUse {
  std::string rule;
  double used = 0.0;
};

struct HottestMoment {
  double temperature = 0.0;  // K
  int cutter = 0, hole = 0, layer = 0;
  double depth = 0.0;  // m
  double weight = 0.0, rotary_speed = 0.0, flow = 0.0, depth_of_cut = 0.0;
  double flat_heat = 0.0, face_heat = 0.0;  // W into that cutter's contact and face
  double fluid_temperature = 0.0;           // K
};

enum class EndedBy { last_hole, rework_due, beyond_repair, stopped_drilling, blade_sheared };
const char* ended_by_name(EndedBy ended);

/// One end of a forecast's band: when rework falls due there, or the run's end where it does not.
struct LifeEnd {
  std::string end;  // "low", "central" or "high" life
  int due = 0;      // 1: rework fell due; 0: it did not within the run, and the rest is the run's end
  int hole = 0;
  double footage = 0.0;        // m
  double rotating_time = 0.0;  // s
  double elapsed_time = 0.0;   // s
  double hottest_flat = 0.0;   // K, of the whole run
  std::string ended_by;        // how that run ended, as ended_by_name says
  int holes_finished = 0;      // in it
  int draws = 0;  // of chance and numbers, of which the band holds quantiles; 0: it moves numbers only
};

struct RunOutcome {
  EndedBy ended_by = EndedBy::last_hole;
  int holes_finished = 0;
  double footage = 0.0;        // m
  double rotating_time = 0.0;  // s
  double elapsed_time = 0.0;   // s, with connections and trips
  double energy = 0.0;         // J at the bit
  BitCondition end;            // when the run stopped
  std::optional<Milestone> rework_due;
  std::optional<Milestone> beyond_repair;
  std::vector<RuleUse> rules;  // at rework due if it fell due, otherwise at the end
  HottestMoment hottest;
  std::vector<LayerPassage> passages;
  std::vector<HoleSummary> holes;
  std::vector<Event> events;
  History history;
  // Bookkeeping of the stepping, for benchmarks and proofs:
  long steps = 0, refused_steps = 0, right_hand_sides = 0;
  double energy_residual = 0.0;  // J: work put in less heat stored, carried off and left in rock
};

}  // namespace dullcast::simulation
