#include "models/condition/cost.hpp"

#include <cmath>

#include "models/common/domain.hpp"

namespace dullcast::condition {

double cost_per_length(double bit_cost, double rig_rate, double rotating_time, double connection_time,
                       double trip_time, double length_drilled) {
  const auto require_amount = [](double amount, const char* what) {
    require_domain(amount >= 0.0 && std::isfinite(amount), "cost_per_length", what, amount);
  };
  require_amount(bit_cost, "the bit's cost must be 0 or more");
  require_amount(rig_rate, "the rig's cost per time must be 0 or more");
  require_amount(rotating_time, "the rotating time must be 0 or more");
  require_amount(connection_time, "the connection time must be 0 or more");
  require_amount(trip_time, "the trip time must be 0 or more");
  require_domain(length_drilled > 0.0 && std::isfinite(length_drilled), "cost_per_length",
                 "the length drilled must be above 0", length_drilled);
  return (bit_cost + rig_rate * (rotating_time + connection_time + trip_time)) / length_drilled;
}

double fuel_volume(double energy_at_bit, double engine_efficiency, double fuel_energy_per_volume) {
  require_domain(energy_at_bit >= 0.0, "fuel_volume", "the energy at the bit must be 0 J or more",
                 energy_at_bit);
  require_domain(engine_efficiency > 0.0 && engine_efficiency <= 1.0, "fuel_volume",
                 "the engine's efficiency must be above 0 and at most 1", engine_efficiency);
  require_domain(fuel_energy_per_volume > 0.0, "fuel_volume",
                 "the fuel's energy per volume must be above 0 J/m3", fuel_energy_per_volume);
  return energy_at_bit / (engine_efficiency * fuel_energy_per_volume);
}

}  // namespace dullcast::condition
