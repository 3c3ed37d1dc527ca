#include "models/wear/cutter_wear.hpp"

#include <algorithm>

#include "models/wear/leaching.hpp"

namespace dullcast::wear {
namespace {

/// Contacts are taken no smaller than this where a side force presses them.
constexpr double least_contact_area = 1e-7;  // m2

double mean_mobilisation(const FlatLoads& loads, Eigen::Index i) {
  const double whole = loads.whole_flat(i);
  const double by_weight = whole > 0.0 ? loads.mobilised_flat(i) / whole : 0.0;
  const double side_area = std::max(loads.contact_area(i), least_contact_area);
  const double by_wall = loads.side_force(i) / (loads.contact_strength(i) * side_area);
  return std::min(by_weight + by_wall * (1.0 - by_weight), 1.0);
}

}  // namespace

void leached_shares(const CutterWearLaw& law, const Eigen::ArrayXd& worn_height, Eigen::ArrayXd& shares) {
  for (Eigen::Index i = 0; i < worn_height.size(); ++i)
    shares(i) = leached_share(law.shapes.of(i), law.back_rake(i), worn_height(i));
}

void carbide_shares(const AbrasionLaw& law, const Eigen::Ref<const Eigen::ArrayXd>& T,
                    const Eigen::ArrayXd& leached, const Flags& ruined, Eigen::ArrayXd& shares) {
  for (Eigen::Index i = 0; i < T.size(); ++i)
    shares(i) = carbide_pressure_share(law, T(i), leached(i), ruined(i));
}

void worn_height_rates(const CutterWearLaw& law, const FlatLoads& loads, const Flags& ruined,
                       const Flags& lost, Eigen::Ref<Eigen::ArrayXd> rates) {
  for (Eigen::Index i = 0; i < rates.size(); ++i) {
    if (lost(i) || !(loads.worn_height(i) < greatest_worn_share * law.shapes.of(i).radius)) {
      rates(i) = 0.0;
      continue;
    }
    const double acceleration =
        ruined(i) ? law.abrasion.carbide_ratio
                  : flat_acceleration(law.abrasion, loads.flat_temperature(i), loads.leached_share(i));
    const double w = loads.wear_coefficient_cold / law.wear_resistance(i) * acceleration;
    const double v = loads.sliding_speed(i);
    const double rubbing =
        worn_height_rate(w, loads.contact_strength(i), mean_mobilisation(loads, i), v, law.back_rake(i));
    double recedes = std::max(loads.whole_flat(i), loads.diamond_area(i));
    // A ruined table wears like the carbide behind it: all that bears recedes.
    if (ruined(i)) recedes = std::max(recedes, loads.contact_area(i));
    rates(i) = rubbing + cutting_wear_rate(law.abrasion, w, loads.specific_energy(i), loads.area_of_cut(i), v,
                                           recedes, law.back_rake(i));
  }
}

void heat_damage_rates(const CutterWearLaw& law, const FlatLoads& loads, const Flags& ruined,
                       const Flags& lost, Eigen::Ref<Eigen::ArrayXd> rates) {
  for (Eigen::Index i = 0; i < rates.size(); ++i) {
    const double area = loads.contact_area(i);
    const double flux = area > 0.0 ? loads.flat_into_table(i) / area : 0.0;
    const double depth = depth_under_leached(law.shapes.of(i), law.back_rake(i), loads.worn_height(i));
    rates(i) = ruined(i) || lost(i)
                   ? 0.0
                   : table_damage_rate(law.damage, loads.flat_temperature(i), flux, loads.leached_share(i),
                                       depth, law.table_conductivity(i));
  }
}

}  // namespace dullcast::wear
