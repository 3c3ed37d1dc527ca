#include "tools/proofs/lab_model.hpp"

#include <algorithm>
#include <array>
#include <boost/math/tools/minima.hpp>
#include <cmath>
#include <fstream>
#include <limits>
#include <sstream>
#include <stdexcept>

#include "models/common/constants.hpp"
#include "models/cutting/weight_balance.hpp"

namespace dullcast::proofs {
namespace {

constexpr double degree = pi / 180.0;
constexpr double inch = 0.0254, foot = 0.3048, pound_force = 4.4482216152605;  // exact
constexpr double psi = pound_force / (inch * inch);

/// Sierra White granite: E 67 GPa, nu 0.32, friction angle 46 deg (Ye & Ghassemi 2018 [pub]). Berea
/// sandstone: 20 GPa, 0.25, 35 deg [mem]. They only say how soon the contact is mobilised.
materials::Rock rock_of_row(const LabRow& row, const LabModel& model) {
  materials::Rock rock;
  rock.unconfined_strength =
      row.granite() && model.granite_strength > 0.0 ? model.granite_strength : row.strength;
  rock.friction_angle = (row.granite() ? 46.0 : 35.0) * degree;
  rock.youngs_modulus = row.granite() ? 67e9 : 20e9;
  rock.poissons_ratio = row.granite() ? 0.32 : 0.25;
  rock.contact_strength_ratio = model.contact_strength_ratio;
  return rock;
}

struct LabBit {
  geometry::WornProfile profile;
  cutting::RockResistance resistance;
  cutting::ForceDirections directions;
  Eigen::ArrayXd carbide_share;
};

LabBit bit_of_row(const LabRow& row, const LabModel& model) {
  geometry::BladePlan plan;
  plan.bit_diameter = row.bit_diameter;
  const int cutters = row.cutters - model.layout.not_cutting;
  plan.cutters_per_blade.setConstant(row.blades, cutters / row.blades);
  const int longer = cutters % row.blades, first = model.layout.short_blade_first ? row.blades - longer : 0;
  for (int k = 0; k < longer; ++k) ++plan.cutters_per_blade(first + k);
  plan.wing_sweep = model.layout.wing_sweep;
  plan.cone_angle = model.layout.cone_angle;
  plan.nose_share = model.layout.nose_share;
  plan.gauge_angle = model.layout.gauge_angle;
  plan.crowding = model.layout.crowding;
  plan.inner_back_rake = plan.outer_back_rake = row.back_rake;
  plan.side_rake = row.side_rake;
  const double radius = 0.5 * (row.cutter_diameter + model.layout.diameter_change);
  plan.exposure = radius;
  // An unworn cutter's length and table play no part.
  const geometry::CutterShape shape{radius, 8e-3, 2e-3, 0.0, 0.4e-3, 45.0 * degree, model.edge_radius};
  const geometry::BitLayout bit = geometry::lay_out_blades(plan, shape);
  LabBit lab{geometry::WornProfile(bit, model.edge, model.spacing_share * shape.radius),
             cutting::rock_resistance(rock_of_row(row, model), 0.0, 0.4, 1.0),
             cutting::force_directions(bit, model.edge), Eigen::ArrayXd::Zero(bit.count())};
  lab.profile.update(Eigen::ArrayXd::Zero(bit.count()));
  return lab;
}

}  // namespace

std::string LabRow::group() const {
  std::ostringstream text;
  text << rock << ", " << std::lround(back_rake / degree) << " deg, " << std::lround(60.0 * rotary_speed)
       << " rpm";
  return text.str();
}

std::vector<LabRow> read_lab_rows(const std::string& path) {
  std::ifstream file(path);
  std::string line;
  if (!std::getline(file, line)) throw std::runtime_error(path + ": cannot be read");
  std::vector<LabRow> rows;
  while (std::getline(file, line)) {
    std::vector<std::string> field;
    std::stringstream cells(line);
    for (std::string cell; std::getline(cells, cell, ',');) field.push_back(cell);
    if (field.size() != 11) throw std::runtime_error(path + ": a row has not 11 fields: " + line);
    LabRow row;
    row.rock = field[0];
    row.strength = std::stod(field[1]) * psi;
    row.bit_diameter = std::stod(field[2]) * inch;
    row.blades = std::stoi(field[3]);
    row.cutters = std::stoi(field[4]);
    row.cutter_diameter = std::stod(field[5]) * inch;
    row.back_rake = std::stod(field[6]) * degree;
    row.side_rake = std::stod(field[7]) * degree;
    row.rotary_speed = std::stod(field[8]) / 60.0;
    row.weight = std::stod(field[9]) * pound_force;
    row.speed = std::stod(field[10]) * foot / 3600.0;
    rows.push_back(row);
  }
  return rows;
}

LabLayout usual_lab_layout() {
  return {"even, cone 10 deg, gauge 75 deg", 10.0 * degree, 0.6, 75.0 * degree, 1.0, 0.0};
}

double LabModel::weight_at(const LabRow& row, double d) const {
  const LabBit bit = bit_of_row(row, *this);
  return cutting::axial_force(bit.profile, bit.resistance, bit.directions, bit.carbide_share, d);
}

double LabModel::speed_at(const LabRow& row) const {
  const LabBit bit = bit_of_row(row, *this);
  constexpr double none = std::numeric_limits<double>::infinity();
  const cutting::Balance balance =
      cutting::balance_weight(bit.profile, bit.resistance, bit.directions, bit.carbide_share, row.weight,
                              none, cutting::BladeBearing{}, 0.0);
  return balance.depth_of_cut * row.rotary_speed;
}

LabModel library_lab_model(const scenario::ModelNumbers& numbers) {
  LabModel model;
  model.layout = usual_lab_layout();
  model.edge.land_reference = numbers.land_reference.central;
  model.edge.bevel_width_reference = 0.4e-3;
  model.edge.bevel_angle_reference = 45.0 * degree;
  model.edge.back_rake_reference = 15.0 * degree;
  model.edge.psi_at_reference = numbers.psi_at_reference.central;
  model.edge.psi_slope = numbers.psi_slope.central;
  model.edge.psi_least = numbers.psi_least.central;
  model.edge_radius = numbers.edge_radius.central;
  model.contact_strength_ratio = 1.5;
  return model;
}

double fit_edge(const std::vector<LabRow>& rows, LabModel& model) {
  const auto squares = [&] {
    double sum = 0.0;
    for (const LabRow& row : rows) {
      const double error = model.weight_at(row, row.depth_of_cut()) / row.weight - 1.0;
      sum += error * error;
    }
    return sum;
  };
  constexpr int bits = 20;  // of the fitted number: a minimum is not known more sharply than half a double's
  const auto best_land = [&](double slope) {
    model.edge.psi_slope = slope;
    const auto at_land = [&](double land) {
      model.edge.land_reference = land;
      return squares();
    };
    const auto best = boost::math::tools::brent_find_minima(at_land, 0.0, 3e-3, bits);
    model.edge.land_reference = best.first;
    return best.second;
  };

  double greatest_rake = 0.0;
  for (const LabRow& row : rows) greatest_rake = std::max(greatest_rake, row.back_rake);
  const double beyond = greatest_rake - model.edge.back_rake_reference;
  const double steepest =
      beyond > 0.0 ? (model.edge.psi_at_reference - model.edge.psi_least) / beyond : model.edge.psi_slope;
  double slope = steepest, least = best_land(steepest);
  if (beyond > 0.0) {
    const auto inside = boost::math::tools::brent_find_minima(best_land, 0.0, steepest, bits);
    if (inside.second < least) slope = inside.first, least = inside.second;
    best_land(slope);
  }
  return std::sqrt(least / static_cast<double>(rows.size()));
}

}  // namespace dullcast::proofs
