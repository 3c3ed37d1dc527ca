#include "models/thermal/cutter_heat.hpp"

#include <cmath>

#include "models/thermal/heat.hpp"

namespace dullcast::thermal {
namespace {

double in_series(double first, double second) {
  return first + second > 0.0 ? first * second / (first + second) : 0.0;
}

/// A contact between the table and rock that moves past: what of its friction enters the table and the rock.
/// Both are taken from the fluid, where all work goes first.
struct ContactFlows {
  SharedHeat heat;
  double link = 0.0;   // W/K, from the table through the contact into the rock
  double share = 0.0;  // 1, of the rock's own temperature in the contact's
};

ContactFlows contact_flows(double made, double spot, double rock_side, double table, double warm_rock) {
  const double sum = spot + rock_side;
  return {share_heat(made, spot, rock_side, table, warm_rock), in_series(spot, rock_side),
          sum > 0.0 ? rock_side / sum : 0.0};
}

/// Lets the contact's rock arrive warmer than the bottom by `rise`, K; what that adds to the table, W.
double warm_up(ContactFlows& contact, double rise) {
  contact.heat.temperature += contact.share * rise;
  contact.heat.into_table += contact.link * rise;
  return contact.link * rise;
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
                std::vector<CutterTouch>& touches) {
  touches.resize(static_cast<std::size_t>(cutting.contact_area.size()));
  for (Eigen::Index i = 0; i < cutting.contact_area.size(); ++i) {
    const CutterNetwork& network = law.networks.of(i);
    const CutterHeating heating{cutting.flat_heat(i),
                                cutting.face_heat(i),
                                cutting.contact_area(i),
                                cutting.engaged_width(i),
                                cutting.area_of_cut(i) / law.side_cosine(i),  // seen on the turned face
                                cutting.sliding_speed(i),
                                law.chip_speed_share * cutting.sliding_speed(i),
                                law.back_rake(i)};
    touches[static_cast<std::size_t>(i)] = {
        cutter_contacts(network, heating, rock),
        cutter_links(network, {heating.contact_area, heating.engaged_width})};
  }
}

void exchange_cutter_heat(const CutterHeatLaw& law, const CoolingLaw& cooling_law, const Cooling& cooling,
                          const std::vector<CutterTouch>& touches, const CuttingHeat& cutting,
                          const PartTemperatures& parts, const SharedTemperatures& shared,
                          HeatBalance& balance, CutterHeats& heats) {
  using Slope = HeatBalance::Slope;
  const auto body = HeatBalance::shared(body_store), fluid = HeatBalance::shared(fluid_store),
             warm = HeatBalance::shared(warm_rock_store);
  for (Eigen::Index i = 0; i < parts.rows(); ++i) {
    const CutterNetwork& network = law.networks.of(i);
    const PartArray T = parts.row(i).transpose();
    const auto& [contacts, links] = touches[static_cast<std::size_t>(i)];
    const double rise =
        rise_at_contacts(cutting.rock_rise(i), cutting.crushed(i), contacts.flat_rock + contacts.face_rock);
    const double made = softened_heat(law.softening, cutting.flat_heat(i), contacts.flat_spot,
                                      contacts.flat_rock, T(table_near), shared.warm_rock + rise);
    ContactFlows flat =
        contact_flows(made, contacts.flat_spot, contacts.flat_rock, T(table_near), shared.warm_rock);
    ContactFlows face = contact_flows(cutting.face_heat(i), contacts.face_spot, contacts.face_rock,
                                      T(table_near), shared.warm_rock);
    heats.unmade(i) = cutting.flat_heat(i) - made;
    // What friction makes falls as table and rock warm, by so much a kelvin: left out of the slopes, that
    // throws steps to and fro, for it damps several times as fast as the rock alone.
    const double flat_sum = contacts.flat_spot + contacts.flat_rock;
    const double answer = softening_answer(law.softening, cutting.flat_heat(i), flat_sum, made);
    const double by_near = -answer * contacts.flat_spot, by_warm = -answer * contacts.flat_rock;
    heats.from_crushed(i) = warm_up(flat, rise) + warm_up(face, rise);
    const auto near = HeatBalance::part(i, table_near);
    balance.bring(fluid, -heats.unmade(i), Slope{near, by_near}, Slope{warm, by_warm});
    balance.flow(fluid, near, flat.heat.into_table, Slope{near, (1.0 - flat.share) * by_near - flat.link},
                 Slope{warm, (1.0 - flat.share) * by_warm + flat.link});
    balance.flow(fluid, near, face.heat.into_table, Slope{near, -face.link}, Slope{warm, face.link});
    balance.flow(fluid, warm, flat.heat.into_rock, Slope{near, flat.share * by_near + flat.link},
                 Slope{warm, flat.share * by_warm - flat.link});

    const auto link = [&](CutterPart one, CutterPart other, double conductance) {
      balance.conduct(HeatBalance::part(i, one), HeatBalance::part(i, other), conductance, T(one), T(other));
    };
    link(table_near, table_rest, links.tables);
    link(table_near, carbide_near, links.fronts);
    link(table_rest, carbide_rest, links.rests);
    link(carbide_near, carbide_rest, links.carbides);

    for (Eigen::Index k = 0; k < cutter_parts; ++k) {
      const auto part = HeatBalance::part(i, k);
      balance.conduct(part, body, network.to_body(k), T(k), shared.body);
      const SurfaceHeat out = surface_heat(cooling_law, cooling, i, T(k), shared.fluid);
      const double area = links.fluid_area(k);
      balance.flow(part, fluid, area * out.flux, Slope{part, area * out.surface_slope},
                   Slope{fluid, -area * out.fluid_slope});
      if (out.surface_slope < 0.0) balance.falls(i, k, -area * out.surface_slope, out.past_peak);
      if (k == table_near) {
        heats.table_flux(i) = out.flux;
        // Where no water is left there is no film either.
        heats.film(i) =
            out.regime == BoilingRegime::film && cooling.wetted_share > least_wetted_share ? 1.0 : 0.0;
      }
      if (k == carbide_near) heats.carbide_flux(i) = out.flux;
    }

    heats.flat_temperature(i) = flat.heat.temperature;
    heats.flat_follows(i) = flat_sum > 0.0 ? contacts.flat_spot / flat_sum : 1.0;
    heats.flat_into_table(i) = flat.heat.into_table;
    heats.flat_into_rock(i) = flat.heat.into_rock;
    heats.face_into_table(i) = face.heat.into_table;
    heats.face_into_chip(i) = face.heat.into_rock;
    // As a whole, since a wild temperature throws.
    heats.capacity[static_cast<std::size_t>(i)] =
        PartArray(network.table_mass(0) * diamond_heat_capacity(T(table_near)),
                  network.table_mass(1) * diamond_heat_capacity(T(table_rest)), network.carbide_capacity(0),
                  network.carbide_capacity(1));
  }
}

double heat_in_cutters(const CutterHeatLaw& law, const PartTemperatures& parts, double T_zero) {
  double heat = 0.0;
  for (Eigen::Index i = 0; i < parts.rows(); ++i) {
    const CutterNetwork& network = law.networks.of(i);
    heat += network.table_mass(0) * diamond_heat(T_zero, parts(i, table_near)) +
            network.table_mass(1) * diamond_heat(T_zero, parts(i, table_rest)) +
            network.carbide_capacity(0) * (parts(i, carbide_near) - T_zero) +
            network.carbide_capacity(1) * (parts(i, carbide_rest) - T_zero);
  }
  return heat;
}

}  // namespace dullcast::thermal
