#pragma once

#include <Eigen/Core>
#include <vector>

#include "models/common/wide.hpp"
#include "models/geometry/by_kind.hpp"
#include "models/thermal/bottom_cooling.hpp"
#include "models/thermal/heat_balance.hpp"

namespace dullcast::thermal {

/// What decides the heat of one bit's cutters and stays the same along the hole.
struct CutterHeatLaw {
  geometry::ByKind<CutterNetwork> networks;
  double chip_speed_share = 0.0;  // 1, speed of the chip over the face over the cutting speed
  Eigen::ArrayXd back_rake;       // rad, one per cutter
  Eigen::ArrayXd side_cosine;     // 1, of each cutter's side rake
  Softening softening;            // of the rock under flats
};

/// What cutting does to each cutter thermally at one instant. Arrays have one entry per cutter.
struct CuttingHeat {
  const Eigen::ArrayXd& flat_heat;      // W made on the contact
  const Eigen::ArrayXd& face_heat;      // W made on the face
  const Eigen::ArrayXd& contact_area;   // m2
  const Eigen::ArrayXd& engaged_width;  // m
  const Eigen::ArrayXd& area_of_cut;    // m2
  const Eigen::ArrayXd& sliding_speed;  // m/s
  const Eigen::ArrayXd& rock_rise;      // K, by which rock that was cut is warmer than the bottom
  const Eigen::ArrayXd& crushed;        // W that it brings so
};

/// Temperatures of the shared stores, K.
struct SharedTemperatures {
  double body = 0.0, fluid = 0.0, warm_rock = 0.0;
};

/// Temperatures of all parts, K: a row a cutter, a column a part (CutterPart).
using PartTemperatures = Eigen::Ref<const Eigen::Array<double, Eigen::Dynamic, cutter_parts>>;

/// Heat of the cutters at one instant. Arrays have one entry per cutter and keep their storage.
struct CutterHeats {
  Eigen::ArrayXd flat_temperature;  // K
  Eigen::ArrayXd
      flat_follows;  // 1, d flat_temperature/d T of the table by the contact; the rest follows the rock
  Eigen::ArrayXd flat_into_table, face_into_table, flat_into_rock, face_into_chip;  // W
  Eigen::ArrayXd from_crushed;              // W of what enters the table, out of crushed rock
  Eigen::ArrayXd unmade;                    // W of flat and face heat that softened rock does not make
  Eigen::ArrayXd table_flux, carbide_flux;  // W/m2 into the fluid, of the parts by the contact
  Eigen::ArrayXd film;                      // 1 where a film of steam covers the table, else 0
  double past_film = far_from_film;         // K, as in BoilingFlux, of the table that is nearest to one
  std::vector<PartArray> capacity;          // J/K
  void resize(Eigen::Index cutters);
};

/// How a block of cutters, side by side (wide.hpp), touches rock and what is around it: what of their heat
/// follows the forces, not the temperatures. As in CutterContacts, CutterLinks and CutterNetwork.
struct BlockOfTouches {
  double flat_spot[wide_block] = {}, flat_rock[wide_block] = {};
  double face_spot[wide_block] = {}, face_rock[wide_block] = {};
  double tables[wide_block] = {}, fronts[wide_block] = {}, rests[wide_block] = {}, carbides[wide_block] = {};
  double fluid_area[cutter_parts][wide_block] = {}, to_body[cutter_parts][wide_block] = {};
};
/// cutter_contacts and cutter_links of every cutter; `touches` keeps its storage.
void touch_rock(const CutterHeatLaw& law, const materials::Rock& rock, const CuttingHeat& cutting,
                std::vector<BlockOfTouches>& touches);

/// Writes down every flow of heat between the cutters' parts and what surrounds them:
/// - work made on flat and face has been counted into the fluid as a whole; what the contact shares out to
/// table and
///   rock (share_heat) is taken from there, so what remains leaves with chips and fluid. Crushed
///   rock meets face and flat warmer than the bottom (rise_at_contacts); that heat of crushing has been
///   counted into the fluid too;
/// - what softened rock under a flat and over a face does not make (softened_heat) is taken from the fluid
///   again: whoever brought the work there takes it off the work too;
/// - between parts, and into the body, by the network's links; from exposed parts into the fluid by
/// surface_heat.
void exchange_cutter_heat(const CutterHeatLaw& law, const CoolingLaw& cooling_law, const Cooling& cooling,
                          const std::vector<BlockOfTouches>& touches, const CuttingHeat& cutting,
                          const PartTemperatures& parts, const SharedTemperatures& shared,
                          HeatBalance& balance, CutterHeats& heats);

/// Heat that the cutters hold, J, counted from T_zero (K); diamond's by diamond_heat.
double heat_in_cutters(const CutterHeatLaw& law, const PartTemperatures& parts, double T_zero);

}  // namespace dullcast::thermal
