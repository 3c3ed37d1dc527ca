#include "models/thermal/bottom_heat.hpp"

#include "models/common/constants.hpp"
#include "models/thermal/heat.hpp"
#include "models/thermal/pool.hpp"

namespace dullcast::thermal {

RubbingHeat rubbing_heat(const RubbingFaces& faces, double body_conductivity, const materials::Rock& rock,
                         const Softening& softening, double T_body, double T_warm) {
  if (!(faces.heat > 0.0) || !(faces.area > 0.0) || !(faces.length > 0.0)) return {};
  const double body = 1.0 / uniform_spot_resistance(body_conductivity, faces.area);
  const double into_rock =
      faces.area * rock_contact_conductance(rock.conductivity, materials::thermal_diffusivity(rock), faces.v,
                                            faces.length, faces.area);
  const double of_each = faces.heat / faces.count;
  const double softened = softened_heat(softening, of_each, body, into_rock, T_body, T_warm);
  const double made = softened < of_each ? faces.count * softened : faces.heat;
  return {made * body / (body + into_rock), made * into_rock / (body + into_rock), faces.heat - made};
}

void exchange_bottom_heat(const BottomHeatLaw& law, const Cooling& cooling, const BottomHeatDemand& demand,
                          const SharedTemperatures& T, HeatBalance& balance) {
  const auto body = HeatBalance::shared(body_store), fluid = HeatBalance::shared(fluid_store),
             warm = HeatBalance::shared(warm_rock_store);
  balance.bring(fluid, demand.power);
  balance.move(fluid, body, demand.rubbing_into_body, {});
  balance.move(fluid, warm, demand.rubbing_into_rock, {});
  balance.conduct(fluid, body, cooling.body * law.body_wetted_area, T.fluid, T.body);
  balance.conduct(warm, fluid, cooling.bottom * law.hole_area, T.warm_rock, T.fluid);
  const double above_rock = T.warm_rock - demand.rock_temperature;
  balance.move(warm, fluid, demand.warm_rock.to_cuttings * above_rock,
               {{warm, demand.warm_rock.to_cuttings}});
  balance.leave(warm_rock_store, Sink::left_in_rock, demand.warm_rock.to_rock * above_rock,
                {{warm, demand.warm_rock.to_rock}});

  const double by_wall_and_cuttings = demand.fluid_to_wall + demand.warm_rock.to_cuttings;
  balance.leave(fluid_store, Sink::carried_off, by_wall_and_cuttings * (T.fluid - demand.rock_temperature),
                {{fluid, by_wall_and_cuttings}});
  if (demand.mist_rate > 0.0) {
    const SurfaceFlux mist = mist_cooling(demand.mist_rate, demand.gas_rate, T.fluid,
                                          demand.inlet_temperature, standard_atmosphere);
    balance.leave(fluid_store, Sink::carried_off, mist.flux, {{fluid, mist.slope}});
  }
  // The pump's stream mixes in whole; of what passes, what is missing stays.
  const double above_inlet = T.fluid - demand.inlet_temperature;
  const auto stream = [&](Sink sink, double capacity) {
    balance.leave(fluid_store, sink, capacity * above_inlet, {{fluid, capacity}});
  };
  stream(Sink::carried_off, demand.water_share * demand.flow_capacity);
  stream(Sink::taken_by_filling, (1.0 - demand.water_share) * demand.flow_capacity);
}

}  // namespace dullcast::thermal
