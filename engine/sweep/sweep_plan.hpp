#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/input/units.hpp"
#include "engine/statistics/distribution.hpp"

/// A sweep's plan as a value: which what-ifs to run. Read from YAML by read_sweep_plan
/// (sweep_plan_reader.hpp).
namespace dullcast::sweep {

/// One scenario value that a factor moves. A path names it as --set does; paths with a * were opened up.
struct FactorTarget {
  std::string name;                // of its column
  std::vector<std::string> paths;  // all set to the same value, or all scaled by it
  bool scales = false;             // the value multiplies what the scenario has there
  std::vector<double> base;        // SI, one per path: what the scenario has; only where it scales
  const base::Dimension* dimension = nullptr;  // null where the values are words
  std::string currency;                        // of money
  // Either a list or a range:
  std::vector<double> values;      // SI, or the factor where it scales
  std::vector<std::string> words;  // where they are words
  double from = 0.0, to = 0.0;     // SI
};

/// Something the driller or the shop may choose. Its targets move together.
struct Factor {
  std::string name;
  std::vector<FactorTarget> targets;
  std::size_t levels = 0;  // of a list, or steps of a range in a grid; 0: a range without steps
  bool listed = false;     // false: a range
};

/// Something that is not known and is drawn.
struct UncertainValue {
  std::string name;                // of its column
  std::string number;              // as for_each_number calls it, or
  std::vector<std::string> paths;  // scenario values by path
  const base::Dimension* dimension = nullptr;
  std::string currency;
  statistics::Distribution distribution;
  std::string source;
  bool of_library = false;  // drawn as the library, or what was learnt, has the number
};

/// A ground realisation: each layer's strength and abrasivity times a lognormal factor of median 1. Along
/// depth the logarithms are a stationary Gauss-Markov process with correlation
/// exp(-distance/correlation_depth) between the middles of layers.
struct LayerSpread {
  double strength = 0.0;           // standard deviation of ln of the strength factor
  double abrasivity = 0.0;         // likewise
  double together = 0.0;           // correlation of the two at one depth, -1..1
  double correlation_depth = 0.0;  // m; 0: layers are independent
  std::string source;
};

/// Lenses of another rock at random places: a Poisson process along depth.
struct Lenses {
  std::string rock;                    // of the library or the scenario
  std::vector<std::string> in;         // names of the rocks that hold them; empty: every layer
  double mean_spacing = 0.0;           // m of the rock that holds them, from one to the next
  statistics::Distribution thickness;  // m
  std::string source;
};

struct Draws {
  int runs = 1;                      // of each design point
  bool same_for_every_point = true;  // draw j is the same state of the unknown at every point
  std::vector<UncertainValue> values;
  /// Root of the correlation of the values, which makes independent normal draws go together as inspected
  /// bits have told of the library's numbers; 0 by 0 where none do.
  Eigen::MatrixXd together;
  std::optional<LayerSpread> layers;
  std::vector<Lenses> lenses;
  std::optional<bool> random_events_drawn;  // chips and sudden failures; none: as the scenario says
};

enum class DesignKind { grid, latin_hypercube, sobol_sequence, table, elementary_effects, variance_shares };
const char* design_word(DesignKind kind);

struct DesignChoice {
  DesignKind kind = DesignKind::grid;
  long points = 0;                   // latin_hypercube, sobol_sequence; base points of variance_shares
  int trajectories = 0, levels = 4;  // elementary_effects
  bool with_uncertain = false;       // uncertain values are axes of the design too
  std::string table;                 // file name as written
  std::vector<std::vector<double>>
      rows;  // of the table: one value per target of every factor, SI or word index
};

/// Cases whose course is kept, thinned.
struct KeptHistories {
  std::vector<long> cases;  // counted from 1, in rising order
  long every = 0;           // and every so many, from the first on; 0: none
  int rows = 200;           // at even steps of footage
};

/// Cases to a part at most: a part is held in memory until it is whole.
inline constexpr long most_cases_per_chunk = 1'000'000;

struct SweepPlan {
  std::string title;
  std::string file;                // path of the plan, as it was given
  std::string scenario;            // path of the base scenario, seen from where the program runs
  std::vector<std::string> fixed;  // "key=value": changes in every case
  long seed = 1;
  std::vector<Factor> factors;
  DesignChoice design;
  Draws draws;
  KeptHistories histories;
  long cases_per_chunk = 0;  // 0: chosen from the number of cases
};

}  // namespace dullcast::sweep
