#include "engine/run/thermal_matrix.hpp"

#include <Eigen/LU>

namespace dullcast {
namespace {
constexpr Eigen::Index body = 0, fluid = 1, warm = 2;
}

ThermalMatrix::ThermalMatrix(StateLayout layout) : layout_(layout) {
  for (auto* row : {&table_table_,   &table_carbide_,   &table_body_,   &table_fluid_,   &table_warm_,
                    &carbide_table_, &carbide_carbide_, &carbide_body_, &carbide_fluid_, &settled_table_,
                    &settled_warm_,  &body_table_,      &body_carbide_, &fluid_table_,   &fluid_carbide_,
                    &warm_table_,    &inverse_tt_,      &inverse_tc_,   &inverse_ct_,    &inverse_cc_}) {
    row->setZero(layout.cutters);
  }
  hubs_.setZero();
  inverse_complement_.setZero();
}

void ThermalMatrix::linearise(const BitModels& bit, const std::vector<Cutter>& cutters, const Hole& hole,
                              double settling_time) {
  const CutterNetwork& n = bit.network;
  const double warm_out = hole.warm_to_fluid + hole.warm_by_cuttings + hole.warm_to_rock;
  hubs_ << -hole.body_to_fluid, hole.body_to_fluid, 0.0,                            //
      hole.body_to_fluid, -hole.body_to_fluid - hole.carried - hole.warm_to_fluid,  //
      hole.warm_to_fluid + hole.warm_by_cuttings,                                   //
      0.0, hole.warm_to_fluid, -warm_out;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const Cutter& c = cutters[static_cast<std::size_t>(i)];
    table_table_(i) =
        -(n.table_to_carbide + c.table_to_fluid + n.table_to_body + c.flat_to_rock + c.face_to_chip) /
        c.table_capacity;
    table_carbide_(i) = n.table_to_carbide / c.table_capacity;
    table_body_(i) = n.table_to_body / c.table_capacity;
    table_fluid_(i) = c.table_from_fluid / c.table_capacity;
    table_warm_(i) = (c.flat_to_rock + c.face_to_chip) / c.table_capacity;
    carbide_table_(i) = n.table_to_carbide / n.carbide_capacity;
    carbide_carbide_(i) = -(n.table_to_carbide + c.carbide_to_fluid + n.carbide_to_body) / n.carbide_capacity;
    carbide_body_(i) = n.carbide_to_body / n.carbide_capacity;
    carbide_fluid_(i) = c.carbide_from_fluid / n.carbide_capacity;
    settled_table_(i) = c.flat_follows / settling_time;
    settled_warm_(i) = (1.0 - c.flat_follows) / settling_time;
    body_table_(i) = n.table_to_body / bit.body_capacity;
    body_carbide_(i) = n.carbide_to_body / bit.body_capacity;
    // What chips take off the face goes to the fluid with them; so does what they bring from the warm rock.
    fluid_table_(i) = (c.table_to_fluid + c.face_to_chip) / hole.fluid_capacity;
    fluid_carbide_(i) = c.carbide_to_fluid / hole.fluid_capacity;
    warm_table_(i) = c.flat_to_rock / hole.warm_capacity;
    hubs_(body, body) -= n.table_to_body + n.carbide_to_body;
    hubs_(fluid, fluid) -= c.table_from_fluid + c.carbide_from_fluid;
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
  const Eigen::ArrayXd& tc = table_carbide_;
  const Eigen::ArrayXd& ct = carbide_table_;
  Eigen::Matrix3d complement = shift * Eigen::Matrix3d::Identity() - hubs_;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double a = shift - table_table_(i), d = shift - carbide_carbide_(i);
    const double determinant = a * d - tc(i) * ct(i);
    inverse_tt_(i) = d / determinant;
    inverse_tc_(i) = tc(i) / determinant;
    inverse_ct_(i) = ct(i) / determinant;
    inverse_cc_(i) = a / determinant;
    // How table and carbide answer to body, fluid and warm rock:
    const Eigen::RowVector3d of_table(table_body_(i), table_fluid_(i), table_warm_(i));
    const Eigen::RowVector3d of_carbide(carbide_body_(i), carbide_fluid_(i), 0.0);
    const Eigen::RowVector3d table = inverse_tt_(i) * of_table + inverse_tc_(i) * of_carbide;
    const Eigen::RowVector3d carbide = inverse_ct_(i) * of_table + inverse_cc_(i) * of_carbide;
    complement.row(body) -= body_table_(i) * table + body_carbide_(i) * carbide;
    complement.row(fluid) -= fluid_table_(i) * table + fluid_carbide_(i) * carbide;
    complement.row(warm) -= warm_table_(i) * table;
  }
  inverse_complement_ = complement.inverse();
}

void ThermalMatrix::solve(State& b) const {
  auto table = layout_.table(b);
  auto carbide = layout_.carbide(b);
  auto settled = layout_.settled(b);
  Eigen::Vector3d hubs(b(layout_.body()), b(layout_.fluid()), b(layout_.warm()));
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double t = inverse_tt_(i) * table(i) + inverse_tc_(i) * carbide(i);
    const double c = inverse_ct_(i) * table(i) + inverse_cc_(i) * carbide(i);
    hubs(body) += body_table_(i) * t + body_carbide_(i) * c;
    hubs(fluid) += fluid_table_(i) * t + fluid_carbide_(i) * c;
    hubs(warm) += warm_table_(i) * t;
  }
  hubs = (inverse_complement_ * hubs).eval();
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double from_table =
        table(i) + table_body_(i) * hubs(body) + table_fluid_(i) * hubs(fluid) + table_warm_(i) * hubs(warm);
    const double from_carbide = carbide(i) + carbide_body_(i) * hubs(body) + carbide_fluid_(i) * hubs(fluid);
    table(i) = inverse_tt_(i) * from_table + inverse_tc_(i) * from_carbide;
    carbide(i) = inverse_ct_(i) * from_table + inverse_cc_(i) * from_carbide;
    settled(i) = (settled(i) + settled_table_(i) * table(i) + settled_warm_(i) * hubs(warm)) /
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

}  // namespace dullcast
