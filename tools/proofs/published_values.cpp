#include <algorithm>
#include <cmath>

#include "models/common/constants.hpp"
#include "models/condition/cost.hpp"
#include "models/cutting/drill_string.hpp"
#include "models/failure/chipping.hpp"
#include "models/geometry/wear_flat.hpp"
#include "models/hydraulics/cuttings.hpp"
#include "models/hydraulics/port_flow.hpp"
#include "models/materials/fluid.hpp"
#include "models/materials/rock.hpp"
#include "models/materials/saturated_water.hpp"
#include "models/thermal/boiling.hpp"
#include "models/thermal/convection.hpp"
#include "models/thermal/heat.hpp"
#include "tools/proofs/handbook_setting.hpp"
#include "tools/proofs/measurements.hpp"
#include "tools/proofs/moving_sources.hpp"

namespace dullcast::proofs {
namespace {

constexpr double degree = pi / 180.0;
constexpr double inch = 0.0254, pound_mass = 0.45359237, gallon = 231.0 * inch * inch * inch;  // exact
constexpr double pound_force = pound_mass * standard_gravity, psi = pound_force / (inch * inch);
const std::string textbook = "Incropera & DeWitt, examples 7.4, 10.1, 10.2 (from memory)";
const std::string jaeger = "Jaeger 1942; Carslaw & Jaeger 1959 (the bound is the model's own claim)";
const std::string drilling_book = "Bourgoyne et al., Applied Drilling Engineering, 1986";

/// Greatest |model/exact - 1|.
template <class Ratio>
double greatest_departure(const std::vector<double>& at, Ratio ratio) {
  double most = 0.0;
  for (const double x : at) {
    const double departure = std::abs(ratio(x) - 1.0);
    if (std::isnan(departure)) return departure;
    most = std::max(most, departure);
  }
  return most;
}

void conduction(Section& section) {
  section.lines.push_back(
      departure_line("moving band, v L/kappa 5 to 1,000: fast form off the exact conductance", jaeger, 0.06,
                     greatest_departure({5.0, 10.0, 20.0, 50.0, 100.0, 1000.0},
                                        [](double x) { return fast_limit(x) / exact_band_conductance(x); })));
  section.lines.push_back(departure_line(
      "moving disc at any speed: blend off the exact conductance", jaeger, 0.06,
      greatest_departure({1e-6, 0.1, 0.5, 0.8, 1.1, 1.4, 2.0, 5.0, 20.0, 100.0},
                         [](double x) { return blended_disc(x) / exact_disc_conductance(x); })));
  section.lines.push_back(departure_line(
      "moving disc, Pe 0 to 10,000: blend off the published form",
      "Tian & Kennedy, J. Tribology 116, 1994 (the bound is the model's own claim)", 0.033,
      greatest_departure({0.0, 0.1, 1.0, 5.0, 20.0, 100.0, 1e4},
                         [](double x) { return blended_disc(x) / (std::sqrt(pi * (0.6575 + x)) / 1.22); })));
  for (const double width : {1.0, 2.0, 4.0})
    section.lines.push_back(departure_line(
        number_words("moving rectangle %.0f times as wide as long, v L/kappa 1 to 1,000: blend off the exact",
                     width),
        jaeger, 0.075, greatest_departure({1.0, 3.0, 10.0, 100.0, 1000.0}, [&](double x) {
          return thermal::rock_contact_conductance(1.0, 1.0, x, 1.0, width) /
                 exact_rectangle_conductance(x, width);
        })));
  section.lines.push_back(
      departure_line("rectangle at rest, 1 to 4 times as wide as long: blend off the exact",
                     "Carslaw & Jaeger 1959, sec. 8.2 (the bound is the model's own claim)", 0.12,
                     greatest_departure({1.0, 2.0, 4.0}, [](double width) {
                       return thermal::rock_contact_conductance(1.0, 1.0, 0.0, 1.0, width) /
                              exact_rectangle_conductance(0.0, width);
                     })));
  section.lines.push_back(number_line(
      "earth under cold air after 5 h, surface", "Geankoplis, example 5.3-1", "%.2f K", 267.98,
      celsius_zero + 15.6 - 33.4 * thermal::half_space_convection_share(11.36, 0.865, 4.65e-7, 18000.0),
      0.005, Standing::input));
  section.lines.push_back(number_line("heat capacity of diamond at 298 K", "CRC Handbook (6.11 J/mol K)",
                                      "%.1f J/kgK", 509.0, thermal::diamond_heat_capacity(298.0), 0.55));
  double debye = 0.0;
  for (const auto& [ratio, share] : {std::pair{1.0, 0.9517}, std::pair{2.0, 0.8254}, std::pair{3.0, 0.6628},
                                     std::pair{4.0, 0.5031}, std::pair{5.0, 0.3686}, std::pair{10.0, 0.0758}})
    debye = std::max(debye, std::abs(thermal::debye_heat_capacity(1000.0, 1000.0 * ratio, 12.011e-3) *
                                         12.011e-3 / (3.0 * 8.314462618 * share) -
                                     1.0));
  section.lines.push_back(departure_line("Debye heat capacity, theta/T 1 to 10, off the table",
                                         "AIP Handbook (from memory)", 0.5e-4 / 0.0758, debye,
                                         Standing::input));
}

void convection(Section& section) {
  section.lines.push_back(number_line("Nusselt number of a cylinder in air, Re 6,071", textbook, "%.1f", 40.6,
                                      thermal::churchill_bernstein(6071.0, 0.70), 0.05, Standing::input));
  materials::Fluid air;
  air.density = 0.995;
  air.viscosity = 20.92e-6 * air.density;
  air.conductivity = 0.030;
  air.heat_capacity = 0.70 * air.conductivity / air.viscosity;
  section.lines.push_back(number_line("convection of that cylinder, as measured (15 % allowed by the book)",
                                      textbook, "%.0f W/m2K", 102.0,
                                      thermal::cutter_convection(air, 10.0, 0.0127), 0.15 * 102.0));
  std::vector<double> reynolds;
  for (double re = 1e4; re < 5e6; re *= 1.5) reynolds.push_back(re);
  section.lines.push_back(
      departure_line("turbulent slots, air: off the author's power law (data scatter 20 %)",
                     "Gnielinski 1976 (from memory)", 0.20,
                     greatest_departure(reynolds,
                                        [](double re) {
                                          return thermal::gnielinski(re, 0.7) /
                                                 (0.0214 * (std::pow(re, 0.8) - 100.0) * std::pow(0.7, 0.4));
                                        }),
                     Standing::input));
  section.lines.push_back(number_line("conductivity of sand packed in water (25 % scatter)",
                                      "Johansen 1975; Farouki 1981 (from memory)", "%.2f W/mK",
                                      std::pow(7.7, 0.6) * std::pow(0.6, 0.4),
                                      thermal::packed_bed_conductivity(7.7, 0.6, 0.4), 0.69));
}

void boiling(Section& section) {
  const materials::SaturatedWater pan = textbook_water(),
                                  steam = materials::saturated_water(standard_atmosphere);
  section.lines.push_back(number_line("critical heat flux of a pan of water", textbook, "%.3f MW/m2", 1.26,
                                      1e-6 * thermal::critical_heat_flux(pan, pan.temperature), 0.005,
                                      Standing::input));
  section.lines.push_back(number_line("the same with the model's own water", textbook, "%.3f MW/m2", 1.26,
                                      1e-6 * thermal::critical_heat_flux(steam, steam.temperature), 0.005));
  section.lines.push_back(number_line("subcooling by 20 K, factor", "Ivey & Morris 1962, by hand", "%.4f",
                                      1.9496,
                                      thermal::critical_heat_flux(pan, pan.temperature - 20.0) /
                                          thermal::critical_heat_flux(pan, pan.temperature),
                                      5e-4, Standing::input));
  section.lines.push_back(number_line("pressure of the greatest critical flux over the critical pressure",
                                      "Cichelli & Bonilla 1945 (from memory): 0.3 to 0.4", "%.3f", 0.35,
                                      pressure_of_greatest_critical_flux() / 22.064e6, 0.05));
  section.lines.push_back(
      number_line("nucleate boiling flux at 118 C, polished copper", textbook, "%.0f kW/m2", 836.0,
                  1e-3 * thermal::wetted_flux(pan, 0.0, celsius_zero + 118.0, pan.temperature, 0.0128).flux,
                  0.5, Standing::input));
  section.lines.push_back(number_line("film boiling of a 6 mm cylinder at 255 C", textbook, "%.1f W/m2K",
                                      238.0, thermal::bromley_convection(textbook_film(), 155.0, 0.006), 0.5,
                                      Standing::input));
  for (const auto& [megapascals, kelvin] :
       {std::pair{0.1, 372.755919}, std::pair{1.0, 453.035632}, std::pair{10.0, 584.149488}})
    section.lines.push_back(number_line(
        number_words("saturation temperature at %.1f MPa", megapascals), "IAPWS R7-97(2012), table 36",
        "%.6f K", kelvin, materials::saturation_temperature(1e6 * megapascals), 5e-7, Standing::input));
}

void stress(Section& section) {
  section.lines.push_back(departure_line(
      "quenched plate, Biot 0.1 to 20: Manson's formula off the exact stress",
      "Manson 1966 against Carslaw & Jaeger 1959 (the bound is the model's own claim)", 0.05,
      greatest_departure({0.1, 0.3, 1.0, 3.0, 10.0, 20.0},
                         [](double x) { return failure::manson_stress_share(x) / exact_plate_stress(x); })));
  materials::Rock granite;
  granite.unconfined_strength = 150e6;
  granite.friction_angle = 46.0 * degree;
  section.lines.push_back(number_line("Sierra White granite under 30 MPa of confinement (Mohr-Coulomb)",
                                      "Ye & Ghassemi, J. Geophys. Res. 123, 2018", "%.1f MPa", 333.8,
                                      1e-6 * materials::bottom_hole_strength(granite, 30e6), 0.05,
                                      Standing::input));
  constexpr double a = 8e-3, rake = 0.2618;
  const double height = a / std::tan(rake);
  const geometry::WearFlat flat = geometry::wear_flat(a, 1.5 * height, 0.3 * height, rake, a);
  section.lines.push_back(number_line("volume of a cylinder's wedge cut to the axis over radius2 x height",
                                      "Archimedes; CRC Mathematical Tables", "%.6f", 2.0 / 3.0,
                                      (flat.diamond_volume + flat.carbide_volume) / (a * a * height), 1e-12));
}

void hydraulics(Section& section) {
  const materials::Fluid warm{995.7, 0.801e-3, 0.6, 4180.0}, water{998.2, 1.002e-3, 0.6, 4180.0};
  section.lines.push_back(number_line("settling of crushed limestone, 0.161 mm, in water at 30 C",
                                      "McCabe, Smith & Harriott, example 7.1 (from memory)", "%.4f m/s",
                                      0.0220, hydraulics::slip_velocity(warm, 2800.0, 0.161e-3),
                                      0.05 * 0.0220));
  std::vector<double> sizes;
  for (double D = 0.2e-3; D < 4e-3; D *= 1.1) sizes.push_back(D);
  const auto settling = [&](double D) { return hydraulics::slip_velocity(water, 2650.0, D); };
  section.lines.push_back(departure_line(
      "settling of natural sand, 0.2 to 4 mm", "van Rijn, J. Hydraulic Eng. 110, 1984 (from memory)", 0.12,
      greatest_departure(sizes, [&](double D) { return settling(D) / van_rijn_settling(D); })));
  section.lines.push_back(departure_line(
      "settling of natural sand, 0.2 to 4 mm", "Soulsby, Dynamics of Marine Sands, 1997 (from memory)", 0.12,
      greatest_departure(sizes, [&](double D) { return settling(D) / soulsby_settling(D); })));
  const double density = 12.0 * pound_mass / gallon, Q = 400.0 * gallon / 60.0;
  const double area = 3.0 * 0.25 * pi * std::pow(13.0 / 32.0 * inch, 2);
  const double drop = hydraulics::port_pressure_drop(density, Q, area, 0.95);
  section.lines.push_back(number_line("three 13/32 in nozzles, 400 gal/min of 12 lbm/gal: pressure drop",
                                      drilling_book, "%.0f psi", 1169.0, drop / psi, 0.5, Standing::input));
  section.lines.push_back(
      number_line("the same: jet impact force", drilling_book, "%.0f lbf", 820.0,
                  hydraulics::jet_impact(density, Q, 0.95 * std::sqrt(2.0 * drop / density)) / pound_force,
                  1.0, Standing::input));
  cutting::DrillString string;
  string.pipe_weight = 250.0;
  string.collar_weight = 1500.0;
  string.collar_length = 30.0;
  const double in_air = cutting::buoyed_string_weight(string, 200.0, 0.0);
  for (const auto& [mud, factor] :
       {std::pair{8.34, 0.873}, std::pair{10.0, 0.847}, std::pair{12.0, 0.817}, std::pair{16.0, 0.756}})
    section.lines.push_back(number_line(
        number_words("buoyancy factor of steel in mud of %.2f lbm/gal", mud), "API RP 7G (from memory)",
        "%.3f", factor, cutting::buoyed_string_weight(string, 200.0, mud * 119.826427) / in_air, 0.0005,
        Standing::input));
}

void money(Section& section) {
  const struct {
    const char* name;
    double cost, rotating_hours, connection_hours, feet_per_hour, dollars_per_foot;
  } bits[] = {{"A", 800.0, 14.8, 0.1, 13.8, 46.81},
              {"B", 4900.0, 57.7, 0.4, 12.6, 42.56},
              {"C", 4500.0, 95.8, 0.5, 10.2, 46.89}};
  for (const auto& bit : bits)
    section.lines.push_back(number_line(
        std::string("cost per foot of bit ") + bit.name, drilling_book, "%.2f $/ft", bit.dollars_per_foot,
        condition::cost_per_length(bit.cost, 400.0, bit.rotating_hours, bit.connection_hours, 7.0,
                                   bit.feet_per_hour * bit.rotating_hours),
        0.005, Standing::input));
}

}  // namespace

std::vector<Section> published_values() {
  Section section;
  section.title = "2d Parts of the model against handbooks and exact solutions";
  section.notes = {
      "A number holds within the last figure printed, or within what its author allows; a bound that the "
      "model "
      "itself claims is marked so, and was found by the same comparison."};
  conduction(section);
  convection(section);
  boiling(section);
  stress(section);
  hydraulics(section);
  money(section);
  return {section};
}

}  // namespace dullcast::proofs
