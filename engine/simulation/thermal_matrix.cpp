#include "engine/simulation/thermal_matrix.hpp"

#include <Eigen/LU>
#include <limits>

namespace dullcast::simulation {

using thermal::body_store, thermal::fluid_store, thermal::warm_rock_store;

namespace {
/// Rates of running away that a step resolves, over its shift.
constexpr double resolved_growth = 0.2;

/// The shift of a step without end, 1/s: far below every rate of the network.
constexpr double at_rest = 1e-9;

/// Whether all pivots of an elimination without pivoting are above 0.
template <class Matrix>
bool has_positive_pivots(Matrix m) {
  for (Eigen::Index k = 0; k < m.rows(); ++k) {
    if (!(m(k, k) > 0.0)) return false;
    for (Eigen::Index i = k + 1; i < m.rows(); ++i)
      m.row(i).tail(m.cols() - k) -= m(i, k) / m(k, k) * m.row(k).tail(m.cols() - k);
  }
  return true;
}
}  // namespace

ThermalMatrix::ThermalMatrix(const StateLayout& layout) : layout_(layout), blocks_(layout.cutters) {
  settled_table_.setZero(layout.cutters);
  settled_warm_.setZero(layout.cutters);
  shared_.setZero();
  carried_.setZero();
  left_in_rock_.setZero();
  inverse_complement_.setZero();
}

void ThermalMatrix::linearise(const thermal::HeatBalance& balance, const Scales& scales) {
  const Eigen::Vector3d per_heat(scales.body_per_heat, scales.water.per_heat, scales.warm_per_heat);
  blocks_.set(balance, scales.capacity, per_heat);
  any_falls_ = balance.any_falls();
  bends_ = balance.bends();
  rests_plainly_ = false;
  shared_ = per_heat.asDiagonal() * balance.shared_by_shared();
  shared_(fluid_store, fluid_store) -= scales.water.own_decay;
  settled_decay_ = 1.0 / scales.settling_time;
  settled_table_ = scales.flat_follows * settled_decay_;
  settled_warm_ = (1.0 - scales.flat_follows) * settled_decay_;
  carried_ = balance.by_shared(thermal::Sink::carried_off);
  left_in_rock_ = balance.by_shared(thermal::Sink::left_in_rock);
  water_decay_ = scales.water.share_decay;
  solids_decay_ = scales.solids_decay.fraction;
  plug_decay_ = scales.solids_decay.plug;
}

void ThermalMatrix::factorise(double shift) {
  factorise(shift, true);
}

bool ThermalMatrix::factorise_at_rest() {
  // Where no surface falls every flow answers the way that evens temperatures out.
  if (any_falls_ && !blocks_.decay()) return false;
  factorise(at_rest, false);
  const bool holds = has_positive_pivots(complement_);
  rests_plainly_ = holds && !bends_;
  return holds;
}

void ThermalMatrix::factorise(double shift, bool leave_out) {
  shift_ = shift;
  rests_plainly_ = false;
  const double most = leave_out ? resolved_growth * shift : std::numeric_limits<double>::infinity();
  complement_ = shift * Eigen::Matrix3d::Identity() - shared_ - blocks_.factorise(shift, most);
  inverse_complement_ = complement_.inverse();
}

void ThermalMatrix::solve(State& b) const {
  auto settled = layout_.settled(b);
  double* columns = b.data() + layout_.first(Block::table_near);
  const Eigen::Vector3d given(b(layout_.body()), b(layout_.fluid()), b(layout_.warm()));
  const Eigen::Vector3d shared = inverse_complement_ * (given + blocks_.carry(columns));
  blocks_.solve(shared, columns);
  settled = (settled + settled_table_ * layout_.table(b) + settled_warm_ * shared(warm_rock_store)) /
            (shift_ + settled_decay_);
  b(layout_.body()) = shared(body_store);
  b(layout_.fluid()) = shared(fluid_store);
  b(layout_.warm()) = shared(warm_rock_store);
  b(layout_.water()) /= shift_ + water_decay_;
  b(layout_.solids()) /= shift_ + solids_decay_;
  b(layout_.plug()) /= shift_ + plug_decay_;
  b(layout_.carried()) += carried_.dot(shared.transpose());
  b(layout_.left_in_rock()) += left_in_rock_.dot(shared.transpose());
  b.tail(b.size() - layout_.slow_from()) /= shift_;
}

}  // namespace dullcast::simulation
