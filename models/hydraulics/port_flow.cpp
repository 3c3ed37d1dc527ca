#include "models/hydraulics/port_flow.hpp"

#include <cmath>

#include "models/common/domain.hpp"

namespace dullcast::hydraulics {
namespace {

/// The greatest coefficient that API RP 13D gives.
constexpr double greatest_discharge = 1.03;

void require_ports(const char* function, double area, double discharge) {
  require_domain(area > 0.0, function, "the area of the ports must be above 0 m2", area);
  require_domain(discharge > 0.0 && discharge <= greatest_discharge, function,
                 "the discharge coefficient must lie above 0 and up to 1.03", discharge);
}

}  // namespace

double port_pressure_drop(double density, double Q, double area, double discharge) {
  const char* const name = "port_pressure_drop";
  require_domain(density >= 0.0, name, "the density must be 0 kg/m3 or more", density);
  require_domain(Q >= 0.0, name, "the flow must be 0 m3/s or more", Q);
  require_ports(name, area, discharge);
  const double v = Q / (discharge * area);
  return 0.5 * density * v * v;
}

double jet_velocity(double Q, double area) {
  require_domain(Q >= 0.0, "jet_velocity", "the flow must be 0 m3/s or more", Q);
  require_domain(area > 0.0, "jet_velocity", "the area of the ports must be above 0 m2", area);
  return Q / area;
}

double jet_impact(double density, double Q, double velocity) {
  const char* const name = "jet_impact";
  require_domain(density >= 0.0, name, "the density must be 0 kg/m3 or more", density);
  require_domain(Q >= 0.0, name, "the flow must be 0 m3/s or more", Q);
  require_domain(velocity >= 0.0, name, "the speed of the jets must be 0 m/s or more", velocity);
  return density * Q * velocity;
}

double port_flow_at(double density, double pressure, double area, double discharge) {
  const char* const name = "port_flow_at";
  require_domain(density > 0.0, name, "the density must be above 0 kg/m3", density);
  require_domain(pressure >= 0.0, name, "the pressure must be 0 Pa or more", pressure);
  require_ports(name, area, discharge);
  return discharge * area * std::sqrt(2.0 * pressure / density);
}

double hydraulic_power(double pressure, double Q) {
  return pressure * Q;
}

}  // namespace dullcast::hydraulics
