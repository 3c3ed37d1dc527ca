#include "models/failure/sudden_failure.hpp"

#include <algorithm>
#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"

namespace dullcast::failure {
namespace {

constexpr double molten_share = 0.05;    // 1, of the cold strength from the solidus on [asm]
constexpr double least_softening = 1.0;  // K between softening and solidus
constexpr double least_capacity = 1.0;   // N
constexpr double least_strength = 1.0;   // Pa
constexpr double least_length = 1e-4;    // m

}  // namespace

double lognormal_failure_probability(double load_share, double spread) {
  if (std::isnan(load_share) || std::isnan(spread)) return load_share + spread;
  if (load_share <= 0.0) return 0.0;
  const double distance = std::log(load_share);
  if (spread <= 0.0) return distance < 0.0 ? 0.0 : distance > 0.0 ? 1.0 : 0.5;
  return 0.5 * std::erfc(-distance / (spread * std::sqrt(2.0)));
}

double braze_strength(const BrazeLaw& law, double T) {
  const double span = at_least(law.solidus - law.softening_temperature, least_softening);
  return law.shear_strength *
         (1.0 - (1.0 - molten_share) * cubic_step((T - law.softening_temperature) / span));
}

double bonded_pocket_area(const geometry::CutterShape& shape, double exposed_share, bool back_in_pocket) {
  const double carbide_length = at_least(shape.length - shape.table_thickness, 0.0);
  const double side = two_pi * shape.radius * carbide_length * (1.0 - std::clamp(exposed_share, 0.0, 1.0));
  return side + (back_in_pocket ? pi * shape.radius * shape.radius : 0.0);
}

double pocket_load_share(const BrazeLaw& law, double resultant, double bonded_area, double pocket_fit,
                         double T) {
  const double capacity =
      braze_strength(law, T) * at_least(bonded_area, 0.0) * std::clamp(pocket_fit, 0.0, 1.0);
  return at_least(resultant, 0.0) / at_least(capacity, least_capacity);
}

double bond_load_share(const BondLaw& law, double tangential_force, double normal_force,
                       const geometry::CutterShape& shape, double back_rake, double T) {
  const double radius = at_least(shape.radius, least_length);
  const double along_face = normal_force * std::cos(back_rake) - tangential_force * std::sin(back_rake);
  const double shear = std::fabs(along_face) / (pi * radius * radius);
  const double thermal = law.mismatch_per_kelvin * std::fabs(T - law.neutral_temperature);
  return (shear + thermal) / at_least(law.shear_strength, least_strength);
}

double blade_load_share(double sum_of_moments, const BladeSection& section, double body_strength) {
  const double thickness = at_least(section.thickness, least_length);
  const double modulus = at_least(section.length, least_length) * thickness * thickness / 6.0;
  return std::fabs(sum_of_moments) / modulus / at_least(body_strength, least_strength);
}

}  // namespace dullcast::failure
