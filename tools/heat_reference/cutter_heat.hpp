#pragma once

#include <vector>

#include "tools/heat_reference/conduction.hpp"

namespace dullcast::heat_reference {

/// Everything around one cutter's heat, SI.
struct CutterCase {
  WornCutter cutter;
  Conductor diamond, carbide;
  double h_table = 0.0;    // W/(m2 K), convection on the exposed table
  double h_carbide = 0.0;  // W/(m2 K), on the exposed carbide
  double pocket = 0.0;     // W/(m2 K), braze film and body in series, on pocket (and back, if held)
  bool back_in_pocket = true;
  double carbide_load = 1.0 / 150.0;  // 1, flux on the flat's carbide over that on its diamond
};

/// The discretised cutter with the flat's heat, ready for many solutions. All temperatures are rises above
/// fluid and body, which share one temperature.
class HeatedCutter {
 public:
  HeatedCutter(const CutterCase& of, Fineness fineness);

  /// Rise of the flat, weighted as the heat enters, for 1 W into the whole cutter, steady: K/W. The
  /// resistance f/A of the flat.
  double steady_resistance() const;
  /// The steady field for 1 W.
  Vector steady_field() const;

  /// Mean rise of the flat (weighted as the heat enters) in a field.
  double flat_rise(const Vector& field) const;
  double table_mean(const Vector& field) const;
  double carbide_mean(const Vector& field) const;
  /// Heat that a field loses to fluid over table, over carbide, and to the pocket, W.
  struct Losses {
    double table = 0.0, carbide = 0.0, pocket = 0.0;
  };
  Losses losses(const Vector& field) const;

  const CutterMesh& mesh() const { return mesh_; }
  const CutterCase& of() const { return of_; }
  double flat_area() const { return flat_area_; }  // m2, of the whole cutter: diamond and carbide
  double diamond_flat_area() const { return diamond_flat_area_; }

  const Matrix& mass() const { return parts_.mass; }
  const Vector& load() const { return load_; }  // 1 W over the whole cutter, of which this half takes half
  /// Conduction and surface exchange with convection scaled by `cooling` (0 stops the pump).
  Matrix exchange(double cooling) const;

 private:
  CutterCase of_;
  CutterMesh mesh_;
  Discretised parts_;
  Matrix table_film_, carbide_film_, pocket_film_;
  Vector load_, table_weights_, carbide_weights_;
  double flat_area_ = 0.0, diamond_flat_area_ = 0.0;
};

/// One stretch of a transient: heat into the flat and convection over what the case states.
struct Stage {
  double duration = 0.0;  // s
  double heat = 0.0;      // W into the whole cutter
  double cooling = 1.0;   // 1
};

struct Sample {
  double time = 0.0;                              // s
  double flat = 0.0, table = 0.0, carbide = 0.0;  // K
};

/// Steps the cutter from rest through the stages and samples it at `times` (s from the beginning, rising):
/// see march.
std::vector<Sample> transient(const HeatedCutter& cutter, const std::vector<Stage>& stages,
                              const std::vector<double>& times, int steps_per_doubling = 6);

}  // namespace dullcast::heat_reference
