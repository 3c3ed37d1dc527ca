#include "engine/simulation/thermal_matrix.hpp"

#include <Eigen/LU>

namespace dullcast::simulation {
namespace {
constexpr Eigen::Index body = 0, fluid = 1, warm = 2;
}

ThermalMatrix::ThermalMatrix(StateLayout layout) : layout_(layout) {
  const auto n = static_cast<std::size_t>(layout.cutters);
  own_.assign(n, Eigen::Matrix4d::Zero());
  inverse_ = own_;
  from_hubs_.assign(n, Eigen::Matrix<double, thermal::cutter_parts, 3>::Zero());
  to_hubs_.assign(n, Eigen::Matrix<double, 3, thermal::cutter_parts>::Zero());
  settled_table_.setZero(layout.cutters);
  settled_warm_.setZero(layout.cutters);
  hubs_.setZero();
  inverse_complement_.setZero();
}

void ThermalMatrix::linearise(const BitModels& bit, const std::vector<Cutter>& cutters, const Hole& hole,
                              double settling_time) {
  const thermal::CutterNetwork& n = bit.network;
  const double warm_out = hole.warm_to_fluid + hole.warm_by_cuttings + hole.warm_to_rock;
  hubs_ << -hole.body_to_fluid, hole.body_to_fluid, 0.0,                            //
      hole.body_to_fluid, -hole.body_to_fluid - hole.carried - hole.warm_to_fluid,  //
      hole.warm_to_fluid + hole.warm_by_cuttings,                                   //
      0.0, hole.warm_to_fluid, -warm_out;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const auto at = static_cast<std::size_t>(i);
    const Cutter& c = cutters[at];
    // Heat out of the parts, W/K; then over their capacities.
    Eigen::Matrix4d out = thermal::conductance_matrix(n, c.links, 0.0);
    out.diagonal().array() += c.to_fluid;
    out(thermal::table_near, thermal::table_near) += c.flat_to_rock + c.face_to_chip;
    own_[at] = -(c.capacity.inverse().matrix().asDiagonal() * out);
    auto& from = from_hubs_[at];
    from.col(body) = n.to_body / c.capacity;
    from.col(fluid) = c.from_fluid / c.capacity;
    from.col(warm).setZero();
    from(thermal::table_near, warm) = (c.flat_to_rock + c.face_to_chip) / c.capacity(thermal::table_near);
    auto& to = to_hubs_[at];
    to.row(body) = n.to_body.transpose() / bit.body_capacity;
    to.row(fluid) = c.to_fluid.transpose() / hole.fluid_capacity;
    // What chips take off the face goes to the fluid with them; so does what they bring from the warm rock.
    to(fluid, thermal::table_near) += c.face_to_chip / hole.fluid_capacity;
    to.row(warm).setZero();
    to(warm, thermal::table_near) = c.flat_to_rock / hole.warm_capacity;
    settled_table_(i) = c.flat_follows / settling_time;
    settled_warm_(i) = (1.0 - c.flat_follows) / settling_time;
    hubs_(body, body) -= n.to_body.sum();
    hubs_(fluid, fluid) -= c.from_fluid.sum();
    hubs_(fluid, warm) -= c.face_to_chip;
    hubs_(warm, warm) -= c.flat_to_rock;
  }
  hubs_.row(body) /= bit.body_capacity;
  hubs_.row(fluid) /= hole.fluid_capacity;
  hubs_.row(warm) /= hole.warm_capacity;
  hubs_(fluid, fluid) -= hole.boiling_slope;
  settled_settled_ = -1.0 / settling_time;
  carried_fluid_ = hole.ledger;
  rock_warm_ = hole.warm_to_rock;
  water_rate_ = hole.water_rate;
  solids_rate_ = hole.solids_rate;
  plug_rate_ = hole.plug_rate;
}

void ThermalMatrix::factorise(double shift) {
  shift_ = shift;
  Eigen::Matrix3d complement = shift * Eigen::Matrix3d::Identity() - hubs_;
  for (std::size_t i = 0; i < own_.size(); ++i) {
    inverse_[i] = (shift * Eigen::Matrix4d::Identity() - own_[i]).inverse();
    complement -= to_hubs_[i] * inverse_[i] * from_hubs_[i];
  }
  inverse_complement_ = complement.inverse();
}

void ThermalMatrix::solve(State& b) const {
  const Eigen::Index n = layout_.cutters;
  auto settled = layout_.settled(b);
  Eigen::Vector3d hubs(b(layout_.body()), b(layout_.fluid()), b(layout_.warm()));
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto at = static_cast<std::size_t>(i);
    hubs += to_hubs_[at] * (inverse_[at] * layout_.parts(b, i).matrix());
  }
  hubs = (inverse_complement_ * hubs).eval();
  for (Eigen::Index i = 0; i < n; ++i) {
    const auto at = static_cast<std::size_t>(i);
    const Eigen::Vector4d parts = inverse_[at] * (layout_.parts(b, i).matrix() + from_hubs_[at] * hubs);
    for (Eigen::Index k = 0; k < thermal::cutter_parts; ++k) b(k * n + i) = parts(k);
    settled(i) =
        (settled(i) + settled_table_(i) * parts(thermal::table_near) + settled_warm_(i) * hubs(warm)) /
        (shift_ - settled_settled_);
  }
  b(layout_.body()) = hubs(body);
  b(layout_.fluid()) = hubs(fluid);
  b(layout_.warm()) = hubs(warm);
  b(layout_.water()) /= shift_ + water_rate_;
  b(layout_.solids()) /= shift_ + solids_rate_;
  b(layout_.plug()) /= shift_ + plug_rate_;
  b(layout_.carried()) += carried_fluid_ * hubs(fluid);
  b(layout_.left_in_rock()) += rock_warm_ * hubs(warm);
  b.tail(b.size() - layout_.slow_from()) /= shift_;
}

}  // namespace dullcast::simulation
