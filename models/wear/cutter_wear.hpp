#pragma once

#include <Eigen/Core>

#include "models/geometry/by_kind.hpp"
#include "models/geometry/cutter.hpp"
#include "models/wear/abrasion.hpp"
#include "models/wear/heat_damage.hpp"

namespace dullcast::wear {

/// What decides how the cutters of one bit wear and stays the same along the hole.
struct CutterWearLaw {
  AbrasionLaw abrasion;
  HeatDamageLaw damage;
  Eigen::ArrayXd back_rake;  // rad, one per cutter
  geometry::ByKind<geometry::CutterShape> shapes;
  Eigen::ArrayXd table_conductivity;  // W/(m K), one per cutter
  Eigen::ArrayXd wear_resistance;     // 1, of each cutter's grade over the reference grade's
};

/// What wears each cutter at one instant. Arrays have one entry per cutter.
struct FlatLoads {
  const Eigen::ArrayXd& worn_height;       // m
  const Eigen::ArrayXd& leached_share;     // 1, of the flat's diamond
  const Eigen::ArrayXd& mobilised_flat;    // m2, integral over the flat of weight times mobilisation
  const Eigen::ArrayXd& whole_flat;        // m2, integral of the weight alone
  const Eigen::ArrayXd& contact_area;      // m2
  const Eigen::ArrayXd& side_force;        // N, of the wall on gauge cutters
  const Eigen::ArrayXd& flat_temperature;  // K
  const Eigen::ArrayXd& flat_into_table;   // W
  const Eigen::ArrayXd& sliding_speed;     // m/s
  const Eigen::ArrayXd& contact_strength;  // Pa, sigma_c at each cutter's speed
  const Eigen::ArrayXd& specific_energy;   // Pa, eps at each cutter's speed and depth of cut
  const Eigen::ArrayXd& area_of_cut;       // m2
  const Eigen::ArrayXd& diamond_area;      // m2, of mobilised diamond under engaged edge
  double wear_coefficient_cold = 0.0;      // m2/N of this rock on the reference grade, unaccelerated
};

/// Which tables are ruined or gone (they wear like carbide), which cutters are lost.
using Flags = Eigen::Array<bool, Eigen::Dynamic, 1>;

/// Worn heights are kept where outlines exist. A lost cutter's stub stands there: far below its neighbours,
/// it meets rock only where they leave some.
inline constexpr double greatest_worn_share = 1.9;  // of the cutter's radius

/// leached_share of each cutter's flat at its worn height (m).
void leached_shares(const CutterWearLaw& law, const Eigen::ArrayXd& worn_height, Eigen::ArrayXd& shares);

/// Pressure share of carbide (carbide_pressure_share) of each cutter at the temperatures (K) and leached
/// shares given.
void carbide_shares(const AbrasionLaw& law, const Eigen::Ref<const Eigen::ArrayXd>& T,
                    const Eigen::ArrayXd& leached, const Flags& ruined, Eigen::ArrayXd& shares);

/// du/dt, m/s, of each cutter: by rubbing, worn_height_rate at the mean mobilisation of its flat, to which
/// the side force adds what it mobilises of the rest; and by cutting, cutting_wear_rate over the whole flat,
/// or the land while that is more. None of a lost cutter nor past greatest_worn_share.
void worn_height_rates(const CutterWearLaw& law, const FlatLoads& loads, const Flags& ruined,
                       const Flags& lost, Eigen::Ref<Eigen::ArrayXd> rates);

/// Heat damage per second of each cutter: table_damage_rate at its flat's temperature and flux; none of a
/// ruined or lost table, so that the integral stays readable.
void heat_damage_rates(const CutterWearLaw& law, const FlatLoads& loads, const Flags& ruined,
                       const Flags& lost, Eigen::Ref<Eigen::ArrayXd> rates);

}  // namespace dullcast::wear
