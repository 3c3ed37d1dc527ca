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
  lab.resistance.rate = model.rate;
  lab.resistance.rotary_speed = row.rotary_speed;
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
  model.rate = {numbers.rate_exponent.central, numbers.rate_speed.central, numbers.rate_depth.central};
  return model;
}

namespace {

/// A row's bit at its measured depth of cut, for one land: all that the exponent and psi do not change.
struct EngagedBit {
  geometry::BitLayout bit;
  cutting::RockResistance resistance;
  cutting::CutterLoads loads;  // before the rate
};

std::vector<EngagedBit> engage(const std::vector<LabRow>& rows, LabModel model) {
  model.rate.exponent = 0.0;
  std::vector<EngagedBit> engaged;
  for (const LabRow& row : rows) {
    const LabBit lab = bit_of_row(row, model);
    engaged.push_back({lab.profile.bit(), lab.resistance, {}});
    cutting::cutter_loads(lab.profile, lab.resistance, lab.carbide_share, row.depth_of_cut(),
                          engaged.back().loads);
  }
  return engaged;
}

/// Those bits' loads at the model's rate: all that psi does not change.
std::vector<cutting::CutterLoads> loads_at_rate(const std::vector<EngagedBit>& engaged,
                                                const LabModel& model) {
  std::vector<cutting::CutterLoads> loads;
  for (const EngagedBit& one : engaged) {
    cutting::RockResistance resistance = one.resistance;
    resistance.rate = model.rate;
    loads.push_back(one.loads);
    cutting::apply_rate(
        resistance, cutting::SpeedStrengths().of(resistance.rate, resistance.rotary_speed, one.bit.radius),
        loads.back());
  }
  return loads;
}

double squares(const std::vector<LabRow>& rows, const std::vector<EngagedBit>& engaged,
               const std::vector<cutting::CutterLoads>& loads, const LabModel& model) {
  double sum = 0.0;
  for (std::size_t k = 0; k < rows.size(); ++k) {
    const double weight = cutting::axial_force(loads[k], engaged[k].resistance,
                                               cutting::force_directions(engaged[k].bit, model.edge));
    const double error = weight / rows[k].weight - 1.0;
    sum += error * error;
  }
  return sum;
}

/// Sets `number` where `value` is least between two ends, one of the ends included.
template <typename Value>
double least_between(double low, double high, double& number, const Value& value) {
  constexpr int bits = 20;  // of the number: a minimum is not known more sharply than half a double's
  const auto at = [&](double x) {
    number = x;
    return value();
  };
  const double at_end = at(high);
  const auto inside = boost::math::tools::brent_find_minima(at, low, high, bits);
  const double best = inside.second < at_end ? inside.first : high;
  return at(best);
}

}  // namespace

double fit_edge(const std::vector<LabRow>& rows, LabModel& model) {
  double greatest_rake = 0.0;
  bool speeds_differ = false;
  for (const LabRow& row : rows) {
    greatest_rake = std::max(greatest_rake, row.back_rake);
    speeds_differ = speeds_differ || row.rotary_speed != rows.front().rotary_speed;
  }
  const double beyond = greatest_rake - model.edge.back_rake_reference;
  const double steepest = beyond > 0.0 ? (model.edge.psi_at_reference - model.edge.psi_least) / beyond : 0.0;
  const double least = least_between(0.0, 3e-3, model.edge.land_reference, [&] {
    const std::vector<EngagedBit> engaged = engage(rows, model);
    const auto over_slope = [&] {
      const std::vector<cutting::CutterLoads> loads = loads_at_rate(engaged, model);
      const auto here = [&] { return squares(rows, engaged, loads, model); };
      return beyond > 0.0 ? least_between(0.0, steepest, model.edge.psi_slope, here) : here();
    };
    return speeds_differ && model.fits_rate
               ? least_between(0.0, greatest_exponent, model.rate.exponent, over_slope)
               : over_slope();
  });
  return std::sqrt(least / static_cast<double>(rows.size()));
}

}  // namespace dullcast::proofs
