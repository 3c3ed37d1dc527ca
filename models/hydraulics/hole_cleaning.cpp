#include "models/hydraulics/hole_cleaning.hpp"

#include <cmath>

#include "models/common/bounds.hpp"
#include "models/common/constants.hpp"
#include "models/common/dual.hpp"

namespace dullcast::hydraulics {
namespace {

constexpr double packing_begins = 0.4, packing_ends = 0.9;  // of packed_fraction
constexpr double open_slot_heads = 1.5;                     // velocity heads lost along open slots
constexpr double overflow_rate = 0.1;                       // 1/s
constexpr double regrinding_rate = 0.5;                     // 1/s
constexpr double last_of_plug = 0.1;                        // of the packed slots' filling
constexpr double plug_diameters = 5.0;
constexpr double overflow_straight_from = 0.99;  // of y: linear past it, so that nothing divides by 0
constexpr double least_area = 1e-9, least_volume = 1e-9, least_grain = 1e-6;  // m2, m3, m

double packed_fraction_of(const Slots& slots) {
  return within(slots.packed_fraction, 0.05, 0.95);
}

// What follows is written once for the solids fraction as a double and as a Dual: values with slopes by it.

/// Pressure drop as linear Q + quadratic Q^2.
template <class Number>
struct PressureLaw {
  Number linear, quadratic;
};

template <class Number>
PressureLaw<Number> pressure_law(const Slots& slots, const materials::Fluid& fluid, const Number& packing) {
  const double area = at_least(slots.area, least_area);
  const double length = at_least(slots.volume, least_volume) / area;
  const double density = at_least(fluid.density, 0.0), viscosity = at_least(fluid.viscosity, 0.0);
  const double solids = packed_fraction_of(slots), voids = 1.0 - solids;
  const double cube = voids * voids * voids, grain = at_least(slots.bed_grain, least_grain);
  const double viscous = 150.0 * viscosity * solids * solids / (cube * grain * grain);
  const double inertial = 1.75 * density * solids / (cube * grain);
  double open = 0.5 * density * open_slot_heads / (area * area);
  if (slots.port_area > 0.0 && slots.discharge > 0.0) {
    const double throat = slots.discharge * slots.port_area;
    open += 0.5 * density / (throat * throat);
  }
  return {length * viscous / area * packing, length * inertial / (area * area) * packing + open};
}

/// The lesser of the pump's flow and of what the limit drives, smoothly.
template <class Number>
Number flow_within_limit(double Q, double limit, const PressureLaw<Number>& law) {
  using std::sqrt, std::pow;
  if (std::isinf(limit) && limit > 0.0) return Q;
  if (limit <= 0.0 || Q == 0.0) return 0.0 * Q;
  const Number discriminant = law.linear * law.linear + 4.0 * limit * law.quadratic;
  if (value_of(discriminant) == 0.0) return Q;  // nothing resists
  const Number most = 2.0 * limit / (law.linear + sqrt(discriminant));
  // (Q^-8 + most^-8)^(-1/8), scaled by the lesser so that no power overflows.
  const bool pump_less = Q <= most;
  const Number ratio = pump_less ? Q / most : most / Q;
  const Number square = ratio * ratio, fourth = square * square;
  return (pump_less ? Number(Q) : most) / pow(1.0 + fourth * fourth, 0.125);
}

/// c/(1 - c), straight on above `straight_from`.
template <class Number>
Number solids_per_fluid(const Number& c, double straight_from) {
  return straight_past([](const auto& x) { return x / (1.0 - x); }, c, straight_from);
}

/// Rate of the plug that the bit pushes up, 1/s.
template <class Number>
Number overflow(const Number& c, double packed_fraction) {
  const Number y = at_least((c / packed_fraction - packing_ends) / (1.0 - packing_ends), 0.0);
  const auto pushed = [](const auto& x) { return x * x / (1.0 - x); };
  return overflow_rate * packed_fraction * straight_past(pushed, y, overflow_straight_from);
}

/// What the flow carries out of the slots at a speed, m/s, over what it carries of cuttings that nothing
/// throws.
Dual helped_out(double thrown, const Dual& speed) {
  return thrown == 0.0 ? Dual(1.0) : 1.0 + thrown / (std::abs(thrown) + speed);
}

}  // namespace

SlotFlow slot_flow(const Slots& slots, const materials::Fluid& fluid, double Q, double c, double lifted_share,
                   double thrown) {
  const double packed_fraction = packed_fraction_of(slots);
  const Dual solids = variable(c);
  const Dual packing =
      cubic_step((solids / packed_fraction - packing_begins) / (packing_ends - packing_begins));
  const PressureLaw<Dual> law = pressure_law(slots, fluid, packing);
  const Dual flow = flow_within_limit(at_least(Q, 0.0), slots.pressure_limit, law);
  const double volume = at_least(slots.volume, least_volume), lifted = within(lifted_share, 0.0, 1.0);
  // In series: what the flow lifts, and the grinding of what it does not.
  const Dual carrying = lifted * flow / (1.0 + lifted * (1.0 - lifted) / (regrinding_rate * volume) * flow) *
                        helped_out(thrown, flow / at_least(slots.area, least_area));
  const Dual pushed = overflow(solids, packed_fraction);
  const Dual out = (1.0 / volume) * (carrying * solids_per_fluid(solids, packed_fraction)) + pushed;

  SlotFlow result;
  result.flow = flow.value;
  result.slot_velocity =
      flow.value / (at_least(slots.area, least_area) * (1.0 - within(c, 0.0, packed_fraction)));
  result.annulus_velocity = flow.value / at_least(slots.annulus_area, least_area);
  result.pressure_drop = (law.linear.value + law.quadratic.value * flow.value) * flow.value;
  result.out = out.value;
  result.out_slope = out.slope;
  result.overflow = pushed.value;
  result.overflow_slope = pushed.slope;
  result.packing = packing.value;
  result.packing_slope = packing.slope;
  return result;
}

double solids_rate(const Slots& slots, const SlotFlow& flow, double /*c*/, double rock_volume_rate) {
  return at_least(rock_volume_rate, 0.0) / at_least(slots.volume, least_volume) - flow.out;
}

Plug plug_over_bit(const Slots& slots, double flow, double lifted_share, double multiple) {
  // A trial state may lie a little under 0, where no plug is: its slope is the one at 0, which leads back.
  const Dual there = variable(at_least(multiple, 0.0));
  const double rate =
      within(lifted_share, 0.0, 1.0) * at_least(flow, 0.0) / at_least(slots.volume, least_volume);
  const Dual blocks = there / (there + last_of_plug), flushed = rate * blocks;
  Plug plug;
  plug.blocks = blocks.value;
  plug.flushed = flushed.value;
  plug.flushed_slope = flushed.slope;
  plug.height = there.value * at_least(slots.volume, least_volume) / at_least(slots.annulus_area, least_area);
  return plug;
}

double plugged_efficiency(double height, double bit_diameter) {
  const double diameters = at_least(height, 0.0) / (plug_diameters * at_least(bit_diameter, 1e-3));
  return 1.0 / (1.0 + diameters * diameters);
}

double packed_efficiency(double packing, double packed_share) {
  return 1.0 - (1.0 - within(packed_share, 0.0, 1.0)) * within(packing, 0.0, 1.0);
}

double cleaning_index(double Q, double lifted_share, double rock_volume_rate, double greatest_concentration) {
  constexpr double most = 1e6;
  const double C = within(greatest_concentration, 0.0, 0.999);
  const double carries = within(lifted_share, 0.0, 1.0) * at_least(Q, 0.0) * C / (1.0 - C);
  if (rock_volume_rate <= 0.0) return most;
  return at_most(carries / rock_volume_rate, most);
}

bool cleans_hole(double lifted_share, double cleaning_index) {
  return lifted_share >= lifting_share && cleaning_index >= 1.0;
}

double plugging_index(const Slots& slots, double rock_volume_rate, double interruption) {
  return at_least(rock_volume_rate, 0.0) * at_least(interruption, 0.0) /
         (packed_fraction_of(slots) * at_least(slots.volume, least_volume));
}

double open_slot_area(double bit_radius, int blades, double blade_width, double hub_radius) {
  const double R = at_least(bit_radius, 0.0), hub = within(hub_radius, 0.0, R);
  return at_least(pi * (R + hub) * (R - hub) - blades * at_least(blade_width, 0.0) * (R - hub), 0.0);
}

double balling_risk(double stickiness, double hydraulic_power_per_area, double solids_fraction,
                    double slot_share) {
  constexpr double power_scale = 550.0 * 12.0 * 4.4482216152605 / 0.0254;  // W/m2, 1 hp/in2
  constexpr double crowding = 0.05, usual_share = 0.35, least_share = 1e-3;
  const double washed = 1.0 + at_least(hydraulic_power_per_area, 0.0) / power_scale;
  const double c = within(solids_fraction, 0.0, 1.0);
  const double room = crowding * within(slot_share, least_share, 1.0) / usual_share;
  return within(stickiness, 0.0, 1.0) / washed * (c / (c + room));
}

}  // namespace dullcast::hydraulics
