#include "tools/heat_reference/comparison.hpp"

#include <Eigen/Eigenvalues>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>

namespace dullcast::heat_reference {
namespace {

double spot_of(const ComparedCase& of, const thermal::CutterNetwork& network) {
  const double flat = thermal::spot_resistance(network, contact_of(of));
  return of.cutter.chip_depth > 0.0 ? thermal::face_spot_factor * flat : flat;
}

/// The network's parts decoupled: T = S z, dz/dt = -rate z + input.
struct Modes {
  Eigen::Vector4d rates;
  Eigen::Matrix4d shapes, back;  // parts from modes and modes from parts
  Eigen::Vector4d into;          // of heat into the table by the contact, K/J
};

Modes modes_of(const Eigen::Matrix4d& conductance, const Eigen::Vector4d& capacity) {
  const Eigen::Vector4d root = capacity.cwiseSqrt();
  const Eigen::Matrix4d symmetric =
      root.cwiseInverse().asDiagonal() * conductance * root.cwiseInverse().asDiagonal();
  const Eigen::SelfAdjointEigenSolver<Eigen::Matrix4d> solved(symmetric);
  Modes modes;
  modes.rates = solved.eigenvalues();
  modes.shapes = root.cwiseInverse().asDiagonal() * solved.eigenvectors();
  modes.back = solved.eigenvectors().transpose() * root.asDiagonal();
  modes.into = solved.eigenvectors().transpose().col(thermal::table_near) / root(thermal::table_near);
  return modes;
}

}  // namespace

thermal::ContactShape contact_of(const ComparedCase& of) {
  return {of.flat.diamond_area + of.carbide_load * of.flat.carbide_area, of.flat.width};
}

double network_resistance(const ComparedCase& of) {
  const thermal::CutterNetwork network = thermal::cutter_network(of.cutter.shape, of.materials);
  const thermal::CutterLinks links = thermal::cutter_links(network, contact_of(of));
  return spot_of(of, network) + thermal::conductance_matrix(network, links, of.convection)
                                    .inverse()(thermal::table_near, thermal::table_near);
}

std::vector<double> network_transient(const ComparedCase& of, const std::vector<Stage>& stages,
                                      const std::vector<double>& times) {
  const thermal::CutterNetwork network = thermal::cutter_network(of.cutter.shape, of.materials);
  const thermal::CutterLinks links = thermal::cutter_links(network, contact_of(of));
  Eigen::Vector4d capacity;
  capacity << network.table_mass.matrix() * of.diamond_capacity, network.carbide_capacity.matrix();
  const double spot = spot_of(of, network);
  std::vector<double> rises;
  Eigen::Vector4d parts = Eigen::Vector4d::Zero();
  double began = 0.0;
  auto due = times.begin();
  for (const Stage& stage : stages) {
    const Modes modes =
        modes_of(thermal::conductance_matrix(network, links, of.convection * stage.cooling), capacity);
    const Eigen::Vector4d start = modes.back * parts;
    const auto after = [&](double t) {
      Eigen::Vector4d now;
      for (Eigen::Index k = 0; k < thermal::cutter_parts; ++k) {
        const double gone = -std::expm1(-modes.rates(k) * t);
        now(k) = start(k) * (1.0 - gone) + stage.heat * modes.into(k) * gone / modes.rates(k);
      }
      return Eigen::Vector4d(modes.shapes * now);
    };
    const double ends = began + stage.duration;
    for (; due != times.end() && *due <= ends * (1.0 + 1e-12); ++due)
      rises.push_back(after(*due - began)(thermal::table_near) + stage.heat * spot);
    parts = after(stage.duration);
    began = ends;
  }
  return rises;
}

std::vector<NamedTransient> usual_transients() {
  return {{"step", {{60.0, 1.0, 1.0}}, {0.05, 0.1, 0.2, 0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 60.0}},
          {"pulse", {{0.2, 1.0, 1.0}, {9.8, 0.0, 1.0}}, {0.05, 0.1, 0.2, 0.25, 0.3, 0.5, 1.0, 3.0, 10.0}},
          {"pump stop and restart",
           {{30.0, 1.0, 1.0}, {20.0, 1.0, 0.005}, {30.0, 1.0, 1.0}},
           {30.0, 30.05, 30.2, 31.0, 35.0, 50.0, 50.05, 50.2, 51.0, 55.0, 80.0}}};
}

TransientError transient_error(const ComparedCase& of, const HeatedCutter& reference,
                               const NamedTransient& through, int steps_per_doubling) {
  const std::vector<Sample> exact = transient(reference, through.stages, through.times, steps_per_doubling);
  const std::vector<double> network = network_transient(of, through.stages, through.times);
  double peak = 0.0;
  for (const Sample& sample : exact) peak = std::max(peak, sample.flat);
  TransientError error;
  for (std::size_t i = 0; i < exact.size(); ++i) {
    const double off = (network.at(i) - exact[i].flat) / peak;
    if (!(std::abs(off) <= std::abs(error.worst))) error = {off, exact[i].time};
  }
  return error;
}

}  // namespace dullcast::heat_reference
