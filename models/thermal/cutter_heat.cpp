#include "models/thermal/cutter_heat.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "models/thermal/heat.hpp"

namespace dullcast::thermal {
namespace {

/// What flows between the stores that one cutter sees, each flow written down once with its slopes. Stores
/// are constants where it is used, so nothing of where each stands is left to find out.
struct CutterFlows {
  static constexpr std::size_t body = std::size_t{cutter_parts} + body_store,
                               fluid = std::size_t{cutter_parts} + fluid_store,
                               warm = std::size_t{cutter_parts} + warm_rock_store;
  double heat[seen_stores] = {};
  double slopes[seen_stores][seen_stores] = {};

  struct Slope {
    std::size_t by;
    double value;
  };
  /// Heat (W) from one store into another.
  template <class... Each>
  [[gnu::always_inline]] inline void flow(std::size_t from, std::size_t to, double flows,
                                          const Each&... each) {
    heat[from] -= flows;
    heat[to] += flows;
    ((slopes[from][each.by] -= each.value, slopes[to][each.by] += each.value), ...);
  }
  /// Heat conducted: conductance (W/K) times the difference of temperatures.
  [[gnu::always_inline]] inline void conduct(std::size_t from, std::size_t to, double conductance,
                                             double T_from, double T_to) {
    flow(from, to, conductance * (T_from - T_to), Slope{from, conductance}, Slope{to, -conductance});
  }
  /// Work (W) that is less than was counted into a store.
  template <class... Each>
  [[gnu::always_inline]] inline void bring(std::size_t to, double work, const Each&... each) {
    heat[to] += work;
    ((slopes[to][each.by] += each.value), ...);
  }
};

/// A contact between the table and rock that moves past: what of its friction enters the table and the rock.
/// Both are taken from the fluid, where all work goes first.
struct ContactFlows {
  SharedHeat heat;
  double link = 0.0;    // W/K, from the table through the contact into the rock
  double share = 0.0;   // 1, of the rock's own temperature in the contact's
  double unmade = 0.0;  // W of friction's heat that softened rock does not make
  // W/K, by which what is made answers to the table's and to the warm rock's temperature: left out of the
  // slopes, that throws steps to and fro, for it damps several times as fast as the rock alone.
  double by_table = 0.0, by_warm = 0.0;
};

/// Friction would make `heat` (W) of cold rock, which arrives warmer than warm_rock by `rise` (K).
[[gnu::always_inline]] inline ContactFlows contact_flows(const Softening& law, double heat, double spot,
                                                         double rock_side, double table, double warm_rock,
                                                         double rise) {
  const double sum = spot + rock_side;
  const bool there = sum > 0.0;
  const double made = softened_heat(law, heat, spot, rock_side, table, warm_rock + rise);
  const double answer = softening_answer(law, heat, sum, made);
  return {share_heat(made, spot, rock_side, table, warm_rock),
          there ? spot * rock_side / sum : 0.0,
          there ? rock_side / sum : 0.0,
          heat - made,
          -answer * spot,
          -answer * rock_side};
}

/// Lets the contact's rock arrive warmer than the bottom by `rise`, K; what that adds to the table, W.
[[gnu::always_inline]] inline double warm_up(ContactFlows& contact, double rise) {
  contact.heat.temperature += contact.share * rise;
  contact.heat.into_table += contact.link * rise;
  return contact.link * rise;
}

/// Takes from the fluid what a contact's friction does not make and what it puts into the table.
[[gnu::always_inline]] inline void rub(CutterFlows& balance, const ContactFlows& contact) {
  using Slope = CutterFlows::Slope;
  constexpr auto fluid = CutterFlows::fluid, warm = CutterFlows::warm;
  balance.bring(fluid, -contact.unmade, Slope{table_near, contact.by_table}, Slope{warm, contact.by_warm});
  balance.flow(fluid, table_near, contact.heat.into_table,
               Slope{table_near, (1.0 - contact.share) * contact.by_table - contact.link},
               Slope{warm, (1.0 - contact.share) * contact.by_warm + contact.link});
}

/// A block of cutters as they are: temperatures (K), what cutting makes and brings (CuttingHeat), and what
/// their parts lose to the fluid (SurfaceHeat).
struct BlockOfCutters {
  double T[cutter_parts][wide_block] = {};
  double flat_heat[wide_block] = {}, face_heat[wide_block] = {};
  double rock_rise[wide_block] = {}, crushed[wide_block] = {};
  double flux[cutter_parts][wide_block] = {}, surface_slope[cutter_parts][wide_block] = {},
         fluid_slope[cutter_parts][wide_block] = {};
};

/// What is told of a block of cutters (CutterHeats).
struct BlockOfHeats {
  double flat_temperature[wide_block], flat_follows[wide_block], flat_into_table[wide_block],
      face_into_table[wide_block], flat_into_rock[wide_block], face_into_chip[wide_block],
      from_crushed[wide_block], unmade[wide_block];
};

DULLCAST_WIDE
void write_down(const BlockOfTouches& touches, const BlockOfCutters& cutters,
                const SharedTemperatures& around, const Softening& softening, BlockOfFlows& flows,
                BlockOfHeats& heats) {
  using Slope = CutterFlows::Slope;
  constexpr auto body = CutterFlows::body, fluid = CutterFlows::fluid, warm = CutterFlows::warm;
  const SharedTemperatures shared = around;
  const Softening law = softening;
  DULLCAST_TURNS_APART
  for (int l = 0; l < wide_block; ++l) {
    CutterFlows balance;
    double T[cutter_parts];
    for (std::size_t k = 0; k < cutter_parts; ++k) T[k] = cutters.T[k][l];
    const double flat_spot = touches.flat_spot[l], flat_rock = touches.flat_rock[l];
    const double flat_sum = flat_spot + flat_rock;
    const double rise =
        rise_at_contacts(cutters.rock_rise[l], cutters.crushed[l], flat_rock + touches.face_rock[l]);
    ContactFlows flat =
        contact_flows(law, cutters.flat_heat[l], flat_spot, flat_rock, T[table_near], shared.warm_rock, rise);
    ContactFlows face = contact_flows(law, cutters.face_heat[l], touches.face_spot[l], touches.face_rock[l],
                                      T[table_near], shared.warm_rock, rise);
    heats.unmade[l] = flat.unmade + face.unmade;
    const double warms_flat = warm_up(flat, rise), warms_face = warm_up(face, rise);
    heats.from_crushed[l] = warms_flat + warms_face;
    rub(balance, flat);
    rub(balance, face);
    balance.flow(fluid, warm, flat.heat.into_rock, Slope{table_near, flat.share * flat.by_table + flat.link},
                 Slope{warm, flat.share * flat.by_warm - flat.link});

    balance.conduct(table_near, table_rest, touches.tables[l], T[table_near], T[table_rest]);
    balance.conduct(table_near, carbide_near, touches.fronts[l], T[table_near], T[carbide_near]);
    balance.conduct(table_rest, carbide_rest, touches.rests[l], T[table_rest], T[carbide_rest]);
    balance.conduct(carbide_near, carbide_rest, touches.carbides[l], T[carbide_near], T[carbide_rest]);
    for (std::size_t k = 0; k < cutter_parts; ++k) {
      balance.conduct(k, body, touches.to_body[k][l], T[k], shared.body);
      const double area = touches.fluid_area[k][l];
      balance.flow(k, fluid, area * cutters.flux[k][l], Slope{k, area * cutters.surface_slope[k][l]},
                   Slope{fluid, -area * cutters.fluid_slope[k][l]});
    }

    heats.flat_temperature[l] = flat.heat.temperature;
    heats.flat_follows[l] = flat_sum > 0.0 ? flat_spot / flat_sum : 1.0;
    heats.flat_into_table[l] = flat.heat.into_table;
    heats.flat_into_rock[l] = flat.heat.into_rock;
    heats.face_into_table[l] = face.heat.into_table;
    heats.face_into_chip[l] = face.heat.into_rock;
    for (std::size_t r = 0; r < seen_stores; ++r) {
      flows.heat[r][l] += balance.heat[r];
      for (std::size_t c = 0; c < seen_stores; ++c) flows.slope[r][c][l] += balance.slopes[r][c];
    }
  }
}

/// What the surfaces of a block lose by plain convection, h (W/(m2 K)) of each cutter.
DULLCAST_WIDE
void convect(const double* h, double T_fluid, BlockOfCutters& cutters) {
  for (std::size_t k = 0; k < cutter_parts; ++k) {
    DULLCAST_TURNS_APART
    for (int l = 0; l < wide_block; ++l) {
      cutters.flux[k][l] = h[l] * (cutters.T[k][l] - T_fluid);
      cutters.surface_slope[k][l] = h[l];
      cutters.fluid_slope[k][l] = h[l];
    }
  }
}

/// Whether all surfaces lose heat by plain convection, as most do at most times: nothing boils, is buried or
/// bare.
bool convect_plainly(const Cooling& cooling, const PartTemperatures& parts, double T_fluid) {
  return !cooling.boils || (cooling.buried == 0.0 && cooling.wetted_share == 1.0 &&
                            (parts <= std::max(cooling.water.temperature, T_fluid)).all());
}

}  // namespace

void CutterHeats::resize(Eigen::Index cutters) {
  for (Eigen::ArrayXd* field :
       {&flat_temperature, &flat_follows, &flat_into_table, &face_into_table, &flat_into_rock,
        &face_into_chip, &from_crushed, &unmade, &table_flux, &carbide_flux, &film}) {
    field->setZero(cutters);
  }
  capacity.assign(static_cast<std::size_t>(cutters), PartArray::Ones());
}

void touch_rock(const CutterHeatLaw& law, const materials::Rock& rock, const CuttingHeat& cutting,
                std::vector<BlockOfTouches>& touches) {
  const Eigen::Index n = cutting.contact_area.size();
  touches.resize(static_cast<std::size_t>(filled_up(static_cast<int>(n)) / wide_block));
  for (Eigen::Index i = 0; i < n; ++i) {
    const CutterNetwork& network = law.networks.of(i);
    const CutterHeating heating{cutting.flat_heat(i),
                                cutting.face_heat(i),
                                cutting.contact_area(i),
                                cutting.engaged_width(i),
                                cutting.area_of_cut(i) / law.side_cosine(i),  // seen on the turned face
                                cutting.sliding_speed(i),
                                law.chip_speed_share * cutting.sliding_speed(i),
                                law.back_rake(i)};
    const auto [contacts, links] = cutter_touch(network, heating, rock);
    BlockOfTouches& to = touches[static_cast<std::size_t>(i) / wide_block];
    const auto l = static_cast<std::size_t>(i) % wide_block;
    to.flat_spot[l] = contacts.flat_spot;
    to.flat_rock[l] = contacts.flat_rock;
    to.face_spot[l] = contacts.face_spot;
    to.face_rock[l] = contacts.face_rock;
    to.tables[l] = links.tables;
    to.fronts[l] = links.fronts;
    to.rests[l] = links.rests;
    to.carbides[l] = links.carbides;
    for (Eigen::Index k = 0; k < cutter_parts; ++k) {
      to.fluid_area[k][l] = links.fluid_area(k);
      to.to_body[k][l] = network.to_body(k);
    }
  }
}

namespace {

/// What the surfaces of the cutters from `first` on lose to the fluid.
void lose_heat(const CoolingLaw& law, const Cooling& cooling, const PartTemperatures& parts, double T_fluid,
               Eigen::Index first, Eigen::Index count, BlockOfCutters& cutters, HeatBalance& balance,
               const BlockOfTouches& touches, CutterHeats& heats) {
  for (Eigen::Index l = 0; l < count; ++l) {
    const Eigen::Index i = first + l;
    for (Eigen::Index k = 0; k < cutter_parts; ++k) {
      const SurfaceHeat out = surface_heat(law, cooling, i, parts(i, k), T_fluid);
      cutters.flux[k][l] = out.flux;
      cutters.surface_slope[k][l] = out.surface_slope;
      cutters.fluid_slope[k][l] = out.fluid_slope;
      if (out.surface_slope < 0.0)
        balance.falls(i, k, -touches.fluid_area[k][l] * out.surface_slope, out.past_peak);
      // Where no water is left there is no film either.
      if (k == table_near && cooling.wetted_share > least_wetted_share) {
        heats.past_film = std::max(heats.past_film, out.past_film);
        if (out.regime == BoilingRegime::film) heats.film(i) = 1.0;
      }
    }
  }
}

}  // namespace

void exchange_cutter_heat(const CutterHeatLaw& law, const CoolingLaw& cooling_law, const Cooling& cooling,
                          const std::vector<BlockOfTouches>& touches, const CuttingHeat& cutting,
                          const PartTemperatures& parts, const SharedTemperatures& shared,
                          HeatBalance& balance, CutterHeats& heats) {
  const bool plainly = convect_plainly(cooling, parts, shared.fluid);
  heats.film.setZero();
  heats.past_film = far_from_film;
  for (std::size_t block = 0; block < touches.size(); ++block) {
    const auto first = static_cast<Eigen::Index>(block * wide_block);
    const Eigen::Index count = std::min<Eigen::Index>(wide_block, parts.rows() - first);
    BlockOfCutters cutters;
    for (Eigen::Index k = 0; k < cutter_parts; ++k)
      std::copy_n(parts.col(k).data() + first, count, cutters.T[k]);
    std::copy_n(&cutting.flat_heat(first), count, cutters.flat_heat);
    std::copy_n(&cutting.face_heat(first), count, cutters.face_heat);
    std::copy_n(&cutting.rock_rise(first), count, cutters.rock_rise);
    std::copy_n(&cutting.crushed(first), count, cutters.crushed);
    if (plainly) {
      double h[wide_block] = {};
      std::copy_n(&cooling.convection(first), count, h);
      convect(h, shared.fluid, cutters);
    } else {
      lose_heat(cooling_law, cooling, parts, shared.fluid, first, count, cutters, balance, touches[block],
                heats);
    }
    std::copy_n(cutters.flux[table_near], count, &heats.table_flux(first));
    std::copy_n(cutters.flux[carbide_near], count, &heats.carbide_flux(first));
    BlockOfHeats found;
    write_down(touches[block], cutters, shared, law.softening, balance.cutters()[block], found);
    for (const auto& [from, to] : {std::pair(found.flat_temperature, &heats.flat_temperature),
                                   {found.flat_follows, &heats.flat_follows},
                                   {found.flat_into_table, &heats.flat_into_table},
                                   {found.face_into_table, &heats.face_into_table},
                                   {found.flat_into_rock, &heats.flat_into_rock},
                                   {found.face_into_chip, &heats.face_into_chip},
                                   {found.from_crushed, &heats.from_crushed},
                                   {found.unmade, &heats.unmade}})
      std::copy_n(from, count, &(*to)(first));
  }
  balance.add_up_cutters();
  if (!plainly || (heats.unmade > 0.0).any()) balance.bend();
  for (Eigen::Index i = 0; i < parts.rows(); ++i) {
    const CutterNetwork& network = law.networks.of(i);
    // As a whole, since a wild temperature throws.
    heats.capacity[static_cast<std::size_t>(i)] =
        PartArray(network.table_mass(0) * diamond_heat_capacity(parts(i, table_near)),
                  network.table_mass(1) * diamond_heat_capacity(parts(i, table_rest)),
                  network.carbide_capacity(0), network.carbide_capacity(1));
  }
}

double heat_in_cutters(const CutterHeatLaw& law, const PartTemperatures& parts, double T_zero) {
  double heat = 0.0;
  const DiamondHeat diamond(T_zero);
  for (Eigen::Index i = 0; i < parts.rows(); ++i) {
    const CutterNetwork& network = law.networks.of(i);
    heat += network.table_mass(0) * diamond.to(parts(i, table_near)) +
            network.table_mass(1) * diamond.to(parts(i, table_rest)) +
            network.carbide_capacity(0) * (parts(i, carbide_near) - T_zero) +
            network.carbide_capacity(1) * (parts(i, carbide_rest) - T_zero);
  }
  return heat;
}

}  // namespace dullcast::thermal
