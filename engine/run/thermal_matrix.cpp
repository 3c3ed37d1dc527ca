#include "engine/run/thermal_matrix.hpp"

#include <Eigen/LU>

namespace dullcast {

ThermalMatrix::ThermalMatrix(StateLayout layout) : layout_(layout) {
  for (auto* row :
       {&table_table_, &table_carbide_, &table_body_, &table_fluid_, &carbide_table_, &carbide_carbide_,
        &carbide_body_, &carbide_fluid_, &settled_table_, &body_table_, &body_carbide_, &fluid_table_,
        &fluid_carbide_, &rock_table_, &inverse_tt_, &inverse_tc_, &inverse_ct_, &inverse_cc_}) {
    row->setZero(layout.cutters);
  }
  inverse_complement_.setZero();
}

void ThermalMatrix::linearise(const Stretch& stretch, const BitModels& bit,
                              const std::vector<Cutter>& cutters, double kept_share, double boiling_slope,
                              double settling_time) {
  const double body = bit.body_capacity, fluid = stretch.fluid_capacity / kept_share;
  double body_out = stretch.body_to_fluid;
  double fluid_out = stretch.body_to_fluid + stretch.fluid_flow_capacity + stretch.fluid_to_wall;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const CutterNetwork& n = stretch.networks[static_cast<std::size_t>(i)];
    const Cutter& c = cutters[static_cast<std::size_t>(i)];
    table_table_(i) =
        -(n.table_to_carbide + n.table_to_fluid + n.table_to_body + c.flat_to_rock + c.face_to_chip) /
        c.table_capacity;
    table_carbide_(i) = n.table_to_carbide / c.table_capacity;
    table_body_(i) = n.table_to_body / c.table_capacity;
    table_fluid_(i) = n.table_to_fluid / c.table_capacity;
    carbide_table_(i) = n.table_to_carbide / n.carbide_capacity;
    carbide_carbide_(i) = -(n.table_to_carbide + n.carbide_to_fluid + n.carbide_to_body) / n.carbide_capacity;
    carbide_body_(i) = n.carbide_to_body / n.carbide_capacity;
    carbide_fluid_(i) = n.carbide_to_fluid / n.carbide_capacity;
    settled_table_(i) = c.flat_follows / settling_time;
    body_table_(i) = n.table_to_body / body;
    body_carbide_(i) = n.carbide_to_body / body;
    // What chips take off the face goes to the fluid with them.
    fluid_table_(i) = (n.table_to_fluid + c.face_to_chip) / fluid;
    fluid_carbide_(i) = n.carbide_to_fluid / fluid;
    rock_table_(i) = c.flat_to_rock;
    body_out += n.table_to_body + n.carbide_to_body;
    fluid_out += n.table_to_fluid + n.carbide_to_fluid;
  }
  settled_settled_ = -1.0 / settling_time;
  body_body_ = -body_out / body;
  body_fluid_ = stretch.body_to_fluid / body;
  fluid_fluid_ = -fluid_out / fluid - boiling_slope;
  fluid_body_ = stretch.body_to_fluid / fluid;
  carried_fluid_ = stretch.fluid_flow_capacity + stretch.fluid_to_wall;
}

void ThermalMatrix::factorise(double shift) {
  shift_ = shift;
  const Eigen::ArrayXd& tc = table_carbide_;
  const Eigen::ArrayXd& ct = carbide_table_;
  Eigen::Matrix2d complement;
  complement << shift - body_body_, -body_fluid_, -fluid_body_, shift - fluid_fluid_;
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double a = shift - table_table_(i), d = shift - carbide_carbide_(i);
    const double determinant = a * d - tc(i) * ct(i);
    inverse_tt_(i) = d / determinant;
    inverse_tc_(i) = tc(i) / determinant;
    inverse_ct_(i) = ct(i) / determinant;
    inverse_cc_(i) = a / determinant;
    // How table and carbide answer to body and fluid:
    const double t_b = inverse_tt_(i) * table_body_(i) + inverse_tc_(i) * carbide_body_(i);
    const double t_f = inverse_tt_(i) * table_fluid_(i) + inverse_tc_(i) * carbide_fluid_(i);
    const double c_b = inverse_ct_(i) * table_body_(i) + inverse_cc_(i) * carbide_body_(i);
    const double c_f = inverse_ct_(i) * table_fluid_(i) + inverse_cc_(i) * carbide_fluid_(i);
    complement(0, 0) -= body_table_(i) * t_b + body_carbide_(i) * c_b;
    complement(0, 1) -= body_table_(i) * t_f + body_carbide_(i) * c_f;
    complement(1, 0) -= fluid_table_(i) * t_b + fluid_carbide_(i) * c_b;
    complement(1, 1) -= fluid_table_(i) * t_f + fluid_carbide_(i) * c_f;
  }
  inverse_complement_ = complement.inverse();
}

void ThermalMatrix::solve(State& b) const {
  auto table = layout_.table(b);
  auto carbide = layout_.carbide(b);
  auto settled = layout_.settled(b);
  double body = b(layout_.body()), fluid = b(layout_.fluid());
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double t = inverse_tt_(i) * table(i) + inverse_tc_(i) * carbide(i);
    const double c = inverse_ct_(i) * table(i) + inverse_cc_(i) * carbide(i);
    body += body_table_(i) * t + body_carbide_(i) * c;
    fluid += fluid_table_(i) * t + fluid_carbide_(i) * c;
  }
  const Eigen::Vector2d hubs = inverse_complement_ * Eigen::Vector2d(body, fluid);
  double rock = b(layout_.left_in_rock());
  for (Eigen::Index i = 0; i < layout_.cutters; ++i) {
    const double from_table = table(i) + table_body_(i) * hubs(0) + table_fluid_(i) * hubs(1);
    const double from_carbide = carbide(i) + carbide_body_(i) * hubs(0) + carbide_fluid_(i) * hubs(1);
    table(i) = inverse_tt_(i) * from_table + inverse_tc_(i) * from_carbide;
    carbide(i) = inverse_ct_(i) * from_table + inverse_cc_(i) * from_carbide;
    settled(i) = (settled(i) + settled_table_(i) * table(i)) / (shift_ - settled_settled_);
    rock += rock_table_(i) * table(i);
  }
  layout_.worn(b) /= shift_;
  layout_.damage(b) /= shift_;
  b(layout_.body()) = hubs(0);
  b(layout_.fluid()) = hubs(1);
  b(layout_.depth()) /= shift_;
  b(layout_.spent()) /= shift_;
  b(layout_.carried()) = (b(layout_.carried()) + carried_fluid_ * hubs(1)) / shift_;
  b(layout_.left_in_rock()) = rock / shift_;
}

}  // namespace dullcast
