#pragma once

#include <Eigen/SparseCore>
#include <functional>
#include <memory>
#include <vector>

#include "tools/heat_reference/cutter_mesh.hpp"

namespace dullcast::heat_reference {

using Matrix = Eigen::SparseMatrix<double>;
using Vector = Eigen::VectorXd;

/// Conduction of a material, SI.
struct Conductor {
  double conductivity = 0.0;     // W/(m K)
  double volume_capacity = 0.0;  // J/(m3 K), density times heat capacity
};

/// The heat equation rho c dT/dt = div(k grad T) + source on a mesh, by Galerkin finite elements with
/// trilinear bricks: M dT/dt + K T = load. Symmetric, K without boundary terms singular to constants.
/// Stiffness and mass by 2 x 2 x 2 Gauss points. Throws std::runtime_error for a brick turned inside out.
struct Discretised {
  Matrix stiffness;  // W/K
  Matrix mass;       // J/K
};
Discretised discretise(const CutterMesh& mesh, const Conductor& diamond, const Conductor& carbide);

/// Integral of weight(point) N_i N_j over the surface, W/K with a conductance as weight: convection
/// q = h (T - T_outside).
Matrix surface_matrix(const CutterMesh& mesh, const std::function<double(const SurfacePoint&)>& weight);
/// Integral of weight(point) N_i over the surface, W with a flux as weight.
Vector surface_load(const CutterMesh& mesh, const std::function<double(const SurfacePoint&)>& weight);
/// Integral of source(place) N_i over the volume, W.
Vector volume_load(const CutterMesh& mesh, const std::function<double(const Eigen::Vector3d&)>& source);
/// Integral of N_i over the bricks of one material, m3.
Vector volume_weights(const CutterMesh& mesh, Material material);

/// A symmetric positive definite matrix ready to be solved with: conjugate gradients preconditioned by an
/// incomplete Cholesky factor (Eigen), to a relative residual of 1e-10.
class Solver {
 public:
  explicit Solver(const Matrix& matrix);
  ~Solver();
  Solver(Solver&&) noexcept;
  Solver& operator=(Solver&&) noexcept;
  /// Throws std::runtime_error when the iteration does not get there.
  Vector solve(const Vector& load, const Vector& guess) const;

 private:
  struct Workings;
  std::unique_ptr<Workings> workings_;
};

}  // namespace dullcast::heat_reference
