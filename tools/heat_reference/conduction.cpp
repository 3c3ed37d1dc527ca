#include "tools/heat_reference/conduction.hpp"

#include <Eigen/Dense>
#include <Eigen/IterativeLinearSolvers>
#include <cmath>
#include <stdexcept>
#include <string>

namespace dullcast::heat_reference {
namespace {

using Eigen::Matrix3d;
using Eigen::Vector3d;

using Shapes = Eigen::Matrix<double, 8, 1>;
using Slopes = Eigen::Matrix<double, 8, 3>;

/// The eight Gauss points of the unit cube with their shape functions and slopes.
struct Gauss {
  std::array<Shapes, 8> shape;
  std::array<Slopes, 8> slope;
  static constexpr double weight = 1.0 / 8.0;
};

Gauss gauss_points() {
  const double places[2] = {0.5 - 0.5 / std::sqrt(3.0), 0.5 + 0.5 / std::sqrt(3.0)};
  Gauss gauss;
  for (std::size_t g = 0; g < 8; ++g) {
    const double at[3] = {places[g & 1U], places[(g >> 1U) & 1U], places[(g >> 2U) & 1U]};
    for (Eigen::Index n = 0; n < 8; ++n) {
      double factor[3], slope[3];
      for (int axis = 0; axis < 3; ++axis) {
        const bool far = ((n >> axis) & 1) != 0;
        factor[axis] = far ? at[axis] : 1.0 - at[axis];
        slope[axis] = far ? 1.0 : -1.0;
      }
      gauss.shape[g](n) = factor[0] * factor[1] * factor[2];
      gauss.slope[g](n, 0) = slope[0] * factor[1] * factor[2];
      gauss.slope[g](n, 1) = factor[0] * slope[1] * factor[2];
      gauss.slope[g](n, 2) = factor[0] * factor[1] * slope[2];
    }
  }
  return gauss;
}

Slopes corners_of(const CutterMesh& mesh, std::size_t brick) {
  Slopes corners;
  for (Eigen::Index n = 0; n < 8; ++n) {
    const int node = mesh.bricks[brick][static_cast<std::size_t>(n)];
    corners.row(n) = mesh.points[static_cast<std::size_t>(node)].transpose();
  }
  return corners;
}

/// Calls `visit(brick, gauss, jacobian, volume)` at every Gauss point, volume being the point's share.
void over_volume(const CutterMesh& mesh, const Gauss& gauss, const auto& visit) {
  for (std::size_t brick = 0; brick < mesh.bricks.size(); ++brick) {
    const Slopes corners = corners_of(mesh, brick);
    for (std::size_t g = 0; g < 8; ++g) {
      const Matrix3d jacobian = corners.transpose() * gauss.slope[g];
      const double determinant = jacobian.determinant();
      if (!(determinant > 0.0))
        throw std::runtime_error("heat reference: brick " + std::to_string(brick) + " is turned inside out");
      visit(brick, g, corners, jacobian, determinant * Gauss::weight);
    }
  }
}

Matrix assembled(std::size_t size, const std::vector<Eigen::Triplet<double>>& entries) {
  const auto n = static_cast<Eigen::Index>(size);
  Matrix matrix(n, n);
  matrix.setFromTriplets(entries.begin(), entries.end());
  return matrix;
}

}  // namespace

Discretised discretise(const CutterMesh& mesh, const Conductor& diamond, const Conductor& carbide) {
  const Gauss gauss = gauss_points();
  std::vector<Eigen::Triplet<double>> stiffness, mass;
  stiffness.reserve(64 * mesh.bricks.size());
  mass.reserve(64 * mesh.bricks.size());
  using Element = Eigen::Matrix<double, 8, 8>;
  std::vector<Element> conducts(mesh.bricks.size(), Element::Zero()),
      holds(mesh.bricks.size(), Element::Zero());
  over_volume(mesh, gauss,
              [&](std::size_t brick, std::size_t g, const Slopes&, const Matrix3d& jacobian, double volume) {
                const Conductor& of = mesh.material[brick] == Material::diamond ? diamond : carbide;
                const Slopes gradient = gauss.slope[g] * jacobian.inverse();
                conducts[brick] += of.conductivity * volume * gradient * gradient.transpose();
                holds[brick] += of.volume_capacity * volume * gauss.shape[g] * gauss.shape[g].transpose();
              });
  for (std::size_t brick = 0; brick < mesh.bricks.size(); ++brick) {
    const auto& nodes = mesh.bricks[brick];
    for (std::size_t a = 0; a < 8; ++a) {
      for (std::size_t b = 0; b < 8; ++b) {
        const auto i = static_cast<Eigen::Index>(a), j = static_cast<Eigen::Index>(b);
        stiffness.emplace_back(nodes[a], nodes[b], conducts[brick](i, j));
        mass.emplace_back(nodes[a], nodes[b], holds[brick](i, j));
      }
    }
  }
  return {assembled(mesh.points.size(), stiffness), assembled(mesh.points.size(), mass)};
}

Matrix surface_matrix(const CutterMesh& mesh, const std::function<double(const SurfacePoint&)>& weight) {
  std::vector<Eigen::Triplet<double>> entries;
  for (const SurfacePoint& point : mesh.surface) {
    const double here = weight(point) * point.area;
    if (here == 0.0) continue;
    for (std::size_t a = 0; a < 4; ++a)
      for (std::size_t b = 0; b < 4; ++b)
        entries.emplace_back(point.nodes[a], point.nodes[b], here * point.shape[a] * point.shape[b]);
  }
  return assembled(mesh.points.size(), entries);
}

Vector surface_load(const CutterMesh& mesh, const std::function<double(const SurfacePoint&)>& weight) {
  Vector load = Vector::Zero(static_cast<Eigen::Index>(mesh.points.size()));
  for (const SurfacePoint& point : mesh.surface) {
    const double here = weight(point) * point.area;
    for (std::size_t a = 0; a < 4; ++a) load(point.nodes[a]) += here * point.shape[a];
  }
  return load;
}

Vector volume_load(const CutterMesh& mesh, const std::function<double(const Vector3d&)>& source) {
  const Gauss gauss = gauss_points();
  Vector load = Vector::Zero(static_cast<Eigen::Index>(mesh.points.size()));
  over_volume(mesh, gauss,
              [&](std::size_t brick, std::size_t g, const Slopes& corners, const Matrix3d&, double volume) {
                const Vector3d place = corners.transpose() * gauss.shape[g];
                const double here = source(place) * volume;
                for (std::size_t n = 0; n < 8; ++n)
                  load(mesh.bricks[brick][n]) += here * gauss.shape[g](static_cast<Eigen::Index>(n));
              });
  return load;
}

Vector volume_weights(const CutterMesh& mesh, Material material) {
  const Gauss gauss = gauss_points();
  Vector weights = Vector::Zero(static_cast<Eigen::Index>(mesh.points.size()));
  over_volume(mesh, gauss,
              [&](std::size_t brick, std::size_t g, const Slopes&, const Matrix3d&, double volume) {
                if (mesh.material[brick] != material) return;
                for (std::size_t n = 0; n < 8; ++n)
                  weights(mesh.bricks[brick][n]) += volume * gauss.shape[g](static_cast<Eigen::Index>(n));
              });
  return weights;
}

struct Solver::Workings {
  Matrix matrix;
  Eigen::ConjugateGradient<Matrix, Eigen::Lower | Eigen::Upper, Eigen::IncompleteCholesky<double>> solver;
};

Solver::Solver(const Matrix& matrix) : workings_(std::make_unique<Workings>()) {
  workings_->matrix = matrix;
  workings_->solver.setTolerance(1e-10);
  workings_->solver.setMaxIterations(5000);
  workings_->solver.compute(workings_->matrix);
  if (workings_->solver.info() != Eigen::Success)
    throw std::runtime_error("heat reference: the matrix could not be prepared");
}
Solver::~Solver() = default;
Solver::Solver(Solver&&) noexcept = default;
Solver& Solver::operator=(Solver&&) noexcept = default;

Vector Solver::solve(const Vector& load, const Vector& guess) const {
  Vector found = workings_->solver.solveWithGuess(load, guess);
  if (workings_->solver.info() != Eigen::Success || !found.allFinite())
    throw std::runtime_error("heat reference: no convergence in " +
                             std::to_string(workings_->solver.iterations()) + " iterations");
  return found;
}

}  // namespace dullcast::heat_reference
