#pragma once

#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "models/cutting/rate_strength.hpp"
#include "models/geometry/cutter.hpp"

/// The three fitted numbers of the force law and the rows they come from:
/// tests/published/lab_full_bit_drilling.csv (its source and licence are in lab_full_bit_drilling.md).
namespace dullcast::proofs {

/// One measurement, in SI.
struct LabRow {
  std::string rock;
  double strength = 0.0;      // Pa, UCS
  double bit_diameter = 0.0;  // m
  int blades = 0, cutters = 0;
  double cutter_diameter = 0.0;             // m
  double back_rake = 0.0, side_rake = 0.0;  // rad
  double rotary_speed = 0.0;                // rev/s
  double weight = 0.0;                      // N
  double speed = 0.0;                       // m/s, rate of penetration
  bool granite() const { return rock == "Sierra White granite"; }
  double depth_of_cut() const { return speed / rotary_speed; }  // m/rev, measured
  /// "Sierra White granite, 15 deg, 100 rpm".
  std::string group() const;
};

/// Reads the file. Throws std::runtime_error when it is missing or a row has not 11 fields.
std::vector<LabRow> read_lab_rows(const std::string& path);

/// Where the cutters of the laboratory's bits are taken to sit: nobody published it.
struct LabLayout {
  std::string name;
  double cone_angle = 0.0, nose_share = 0.6, gauge_angle = 0.0;  // rad, 1, rad
  double crowding = 1.0;                                         // 1: evenly along the radius
  double wing_sweep = 0.0;                                       // rad
  int not_cutting = 0;             // of the published cutters: set on gauge, where they only ream
  double diameter_change = 0.0;    // m, within half of the last digit published
  bool short_blade_first = false;  // the blade with one cutter less comes first instead of last
};

/// Even spacing on the cone, nose and shoulder that the library's bits have.
LabLayout usual_lab_layout();

/// A sharp bit in clean laboratory conditions (drilling efficiency 1, no excess pressure, blades clear):
/// cutting and the land of its bevel, taken as the conventional 45 deg, 0.4 mm.
struct LabModel {
  LabLayout layout;
  geometry::EdgeLaw edge;
  double edge_radius = 0.0;             // m
  double contact_strength_ratio = 0.0;  // 1, sigma_c/q_b
  double spacing_share =
      1.0 / 64.0;  // 1, cell width of the outlines over the cutter's radius: finer than a run's
  double granite_strength = 0.0;  // Pa, in place of the file's; 0 takes the file's
  cutting::RateLaw rate;
  bool fits_rate = true;  // else fit_edge leaves its exponent

  /// Weight on bit, N, that a row's bit needs in its rock at depth of cut d, m/rev.
  double weight_at(const LabRow& row, double d) const;
  /// Rate of penetration, m/s, that the row's weight gives.
  double speed_at(const LabRow& row) const;
};

/// The model with all its fixed numbers from the library and contact strength 1.5 times the rock's.
LabModel library_lab_model(const scenario::ModelNumbers& numbers);

/// Exponents of the rate are sought up to here.
inline constexpr double greatest_exponent = 0.5;

/// Sets edge.land_reference, edge.psi_slope and rate.exponent so that sum over rows (W_model(d)/W - 1)^2 is
/// least at the measured depths of cut d: least squares in relative weight. psi_slope is sought between 0 and
/// where psi meets psi_least at the greatest back rake of the rows, past which it would change nothing; it
/// stays where no row's back rake is greater than the reference, and the exponent where all rows have one
/// speed. With `contact_strength_ratio` held, what is fitted of the land is its product with that ratio.
/// Returns the root mean square of the relative errors left.
double fit_edge(const std::vector<LabRow>& rows, LabModel& model);

}  // namespace dullcast::proofs
