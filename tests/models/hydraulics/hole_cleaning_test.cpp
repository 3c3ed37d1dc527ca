#include "models/hydraulics/hole_cleaning.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "models/hydraulics/port_flow.hpp"
#include "support/numbers.hpp"

namespace dullcast::hydraulics {
namespace {

using testing::infinity;
using testing::nan;
const materials::Fluid water{998.2, 1.002e-3, 0.6, 4180.0};
constexpr double gallon_a_minute = 3.785411784e-3 / 60.0;  // m3/s, exact
constexpr double metre_an_hour = 1.0 / 3600.0;
constexpr double hole_radius = 0.1, hole_area = pi * hole_radius * hole_radius;

/// A 200 mm bit with slots 0.35 of the hole over one diameter, 89 mm pipe.
Slots usual_slots(double share = 0.35) {
  Slots slots;
  slots.area = share * hole_area;
  slots.volume = slots.area * 2.0 * hole_radius;
  slots.annulus_area = hole_area - pi * 0.0445 * 0.0445;
  slots.packed_fraction = 0.58;
  slots.discharge = 0.95;
  slots.pressure_limit = infinity;
  return slots;
}

/// Share of the cuttings that Q lifts, four blades at 90 rpm.
double usual_lift(const Slots& slots, double Q, double rop) {
  return lifted_share(water, 2500.0, cuttings_size(rop / 1.5 / 4.0), 1.0,
                      slot_flow(slots, water, Q, 0.0, 1.0).annulus_velocity);
}

double rate_at(const Slots& slots, double Q, double c, double lifted, double rock) {
  return solids_rate(slots, slot_flow(slots, water, Q, c, lifted), c, rock);
}

/// Solids fraction at which nothing changes.
double steady_solids(const Slots& slots, double Q, double lifted, double rock) {
  double low = 0.0, high = slots.packed_fraction;
  for (int k = 0; k < 100; ++k) {
    const double c = 0.5 * (low + high);
    (rate_at(slots, Q, c, lifted, rock) > 0.0 ? low : high) = c;
  }
  return 0.5 * (low + high);
}

/// Solids fraction after a time, from c; classical Runge-Kutta, steps of a millisecond.
double solids_after(const Slots& slots, double Q, double lifted, double rock, double c, double time) {
  const int steps = static_cast<int>(std::ceil(time / 1e-3));
  const double dt = time / steps;
  for (int k = 0; k < steps; ++k) {
    const double a = rate_at(slots, Q, c, lifted, rock),
                 b = rate_at(slots, Q, c + 0.5 * dt * a, lifted, rock);
    const double d = rate_at(slots, Q, c + 0.5 * dt * b, lifted, rock);
    const double e = rate_at(slots, Q, c + dt * d, lifted, rock);
    c += dt / 6.0 * (a + 2.0 * b + 2.0 * d + e);
  }
  return c;
}

TEST(SolidsBalance, SettlesAtTheCuttingsConcentrationWhenAllIsLifted) {
  const Slots slots = usual_slots();
  for (const double gallons : {20.0, 40.0, 65.0, 150.0}) {
    const double Q = gallons * gallon_a_minute, rop = 25.0 * metre_an_hour;
    EXPECT_NEAR(steady_solids(slots, Q, 1.0, rop * hole_area), cuttings_concentration(rop, hole_area, Q),
                1e-12);
  }
}

TEST(SolidsBalance, StaysCleanAtSixtyFiveGallonsAndTwentyMetresAnHour) {
  const Slots slots = usual_slots();
  const double Q = 65.0 * gallon_a_minute, rop = 20.0 * metre_an_hour;
  const double c = steady_solids(slots, Q, usual_lift(slots, Q, rop), rop * hole_area);
  EXPECT_LT(c, 0.15);
  EXPECT_GT(c, cuttings_concentration(rop, hole_area, Q));  // some is not lifted
  EXPECT_EQ(slot_flow(slots, water, Q, c, 1.0).packing, 0.0);
}

TEST(SolidsBalance, PacksAtTenGallonsAndThirtyMetresAnHour) {
  // Ten gallons a minute is a floor for cooling, not a cleaning rate: common practice.
  const Slots slots = usual_slots();
  const double Q = 10.0 * gallon_a_minute, rop = 30.0 * metre_an_hour;
  const double c = steady_solids(slots, Q, usual_lift(slots, Q, rop), rop * hole_area);
  EXPECT_EQ(slot_flow(slots, water, Q, c, 1.0).packing, 1.0);
  EXPECT_LT(c, slots.packed_fraction);
}

TEST(SolidsBalance, PumpOffPacksInTheTimeThatTheRockNeeds) {
  const Slots slots = usual_slots();
  for (const double rop : {2.0 * metre_an_hour, 20.0 * metre_an_hour, 60.0 * metre_an_hour}) {
    const double rock = rop * hole_area;
    const double time = 0.9 * slots.packed_fraction * slots.volume / rock;
    // Straight up: c = rock t/volume until then.
    const double c = solids_after(slots, 0.0, 0.0, rock, 0.0, time);
    EXPECT_NEAR(c, 0.9 * slots.packed_fraction, 1e-9);
    EXPECT_NEAR(slot_flow(slots, water, 0.0, c, 0.0).packing, 1.0, 1e-12);
    EXPECT_LT(slot_flow(slots, water, 0.0, 0.95 * c, 0.0).packing, 0.99);
  }
}

TEST(SolidsBalance, NeverPassesThePackedFraction) {
  const Slots slots = usual_slots();
  for (const double rop : {1.0 * metre_an_hour, 60.0 * metre_an_hour, 600.0 * metre_an_hour}) {
    const double c = solids_after(slots, 0.0, 0.0, rop * hole_area, 0.0, 100.0);
    EXPECT_LT(c, slots.packed_fraction);
    EXPECT_LT(rate_at(slots, 0.0, slots.packed_fraction, 0.0, rop * hole_area), 0.0);
  }
}

TEST(SolidsBalance, AStoppedPumpIsFlushedClearAgain) {
  const Slots slots = usual_slots();
  const double Q = 65.0 * gallon_a_minute, rop = 20.0 * metre_an_hour;
  const double lifted = usual_lift(slots, Q, rop);
  const double packed = solids_after(slots, 0.0, 0.0, rop * hole_area, 0.0, 60.0);
  EXPECT_GT(packed, 0.9 * slots.packed_fraction);
  EXPECT_LT(solids_after(slots, Q, lifted, rop * hole_area, packed, 10.0), 0.15);
}

TEST(SolidsBalance, FewerBladesLeaveWiderSlotsThatClearBetter) {
  // Same blade width and hub, four against six blades.
  const double wide = open_slot_area(hole_radius, 4, 0.04, 0.03);
  const double narrow = open_slot_area(hole_radius, 6, 0.04, 0.03);
  EXPECT_NEAR(wide - narrow, 2.0 * 0.04 * 0.07, 1e-15);
  Slots four = usual_slots(wide / hole_area), six = usual_slots(narrow / hole_area);
  const double rock = 30.0 * metre_an_hour * hole_area;
  // They hold out longer without flow, by their volume,
  EXPECT_LT(plugging_index(four, rock), plugging_index(six, rock));
  EXPECT_NEAR(plugging_index(six, rock) / plugging_index(four, rock), wide / narrow, 1e-12);
  // they let more through when packed under a weak pump, and come to fewer solids with it,
  four.pressure_limit = six.pressure_limit = 50e3;
  const double Q = 40.0 * gallon_a_minute;
  EXPECT_GT(slot_flow(four, water, Q, 0.55, 1.0).flow, 1.2 * slot_flow(six, water, Q, 0.55, 1.0).flow);
  const double lifted = usual_lift(four, Q, 30.0 * metre_an_hour);
  EXPECT_LT(steady_solids(four, Q, lifted, rock), steady_solids(six, Q, lifted, rock));
  EXPECT_LT(solids_after(four, Q, lifted, rock, 0.5, 3.0), solids_after(six, Q, lifted, rock, 0.5, 3.0));
  // and clay clings to them less.
  EXPECT_LT(balling_risk(0.8, 1e5, 0.1, wide / hole_area), balling_risk(0.8, 1e5, 0.1, narrow / hole_area));
}

TEST(SlotFlow, WithoutALimitThePumpsFlowPassesExactly) {
  const Slots slots = usual_slots();
  const SlotFlow clean = slot_flow(slots, water, 4e-3, 0.0, 1.0);
  EXPECT_EQ(clean.flow, 4e-3);
  EXPECT_NEAR(clean.slot_velocity, 4e-3 / slots.area, 1e-15);
  EXPECT_NEAR(clean.annulus_velocity, 4e-3 / slots.annulus_area, 1e-15);
  EXPECT_EQ(clean.out, 0.0);
  EXPECT_EQ(clean.packing, 0.0);
  // Half full, the water runs through the other half.
  EXPECT_NEAR(slot_flow(slots, water, 4e-3, 0.5, 1.0).slot_velocity, 2.0 * 4e-3 / slots.area, 1e-15);
}

TEST(SlotFlow, CleanPressureIsThatOfThePortsAndOfTheSlotsHeads) {
  Slots slots = usual_slots();
  slots.port_area = 2.5e-4;
  const double v = 4e-3 / slots.area;
  EXPECT_NEAR(slot_flow(slots, water, 4e-3, 0.0, 1.0).pressure_drop,
              port_pressure_drop(998.2, 4e-3, 2.5e-4, 0.95) + 0.75 * 998.2 * v * v, 1e-8);
}

TEST(SlotFlow, PackedPressureIsErgunsBed) {
  // Ergun 1952 [hb]: 150 mu (1-e)^2/(e^3 D^2) v + 1.75 rho (1-e)/(e^3 D) v^2 per length.
  const Slots slots = usual_slots();
  const double e = 0.42, D = 0.5e-3, v = 1e-3 / slots.area;
  const double bed = 0.2 * (150.0 * 1.002e-3 * 0.58 * 0.58 / (e * e * e * D * D) * v +
                            1.75 * 998.2 * 0.58 / (e * e * e * D) * v * v);
  EXPECT_NEAR(slot_flow(slots, water, 1e-3, 0.58, 1.0).pressure_drop / (bed + 0.75 * 998.2 * v * v), 1.0,
              1e-12);
}

TEST(SlotFlow, KeepsWithinThePressureLimit) {
  Slots slots = usual_slots();
  slots.port_area = 1e-4;
  slots.pressure_limit = 2e5;
  const double most = port_flow_at(998.2, 2e5, 1e-4, 0.95);
  // A third of what the limit drives passes nearly whole; far more than it is held to it.
  EXPECT_NEAR(slot_flow(slots, water, most / 3.0, 0.0, 1.0).flow / (most / 3.0), 1.0, 1e-4);
  EXPECT_NEAR(slot_flow(slots, water, 100.0 * most, 0.0, 1.0).flow / most, 1.0, 1e-3);
  for (double Q = 1e-6; Q < 1e6; Q *= 2.0) {
    for (double c = 0.0; c < 0.58; c += 0.05) {
      const SlotFlow flow = slot_flow(slots, water, Q, c, 1.0);
      EXPECT_LE(flow.flow, Q);
      EXPECT_GT(flow.flow, 0.0);
      EXPECT_LE(flow.pressure_drop, 2e5 * (1.0 + 1e-12));
    }
  }
  // Packed slots pass less of it.
  EXPECT_LT(slot_flow(slots, water, most, 0.55, 1.0).flow,
            0.9 * slot_flow(slots, water, most, 0.0, 1.0).flow);
  slots.pressure_limit = 0.0;
  EXPECT_EQ(slot_flow(slots, water, 1e-3, 0.1, 1.0).flow, 0.0);
}

// By hand: the two flows joined as a power mean of order -8 are 2^(-1/8) of each where they are equal.
TEST(SlotFlow, JoinsPumpAndLimitAsAPowerMean) {
  Slots slots = usual_slots();
  slots.port_area = 1e-4;
  slots.pressure_limit = 2e5;
  const double most = slot_flow(slots, water, 1e9, 0.0, 1.0).flow;
  EXPECT_NEAR(slot_flow(slots, water, most, 0.0, 1.0).flow / most, std::pow(2.0, -0.125), 1e-9);
  EXPECT_NEAR(slot_flow(slots, water, 2.0 * most, 0.0, 1.0).flow / most,
              std::pow(1.0 + std::pow(2.0, -8), -0.125), 1e-9);
  EXPECT_NEAR(slot_flow(slots, water, 0.5 * most, 0.0, 1.0).flow / most,
              0.5 * std::pow(1.0 + std::pow(0.5, 8), -0.125), 1e-9);
}

TEST(SlotFlow, TakesNoPackedFractionPastNinetyFivePercent) {
  Slots slots = usual_slots(), most = usual_slots();
  slots.packed_fraction = 0.99;
  most.packed_fraction = 0.95;
  EXPECT_EQ(slot_flow(slots, water, 1e-3, 0.5, 1.0).packing, slot_flow(most, water, 1e-3, 0.5, 1.0).packing);
  EXPECT_LT(slot_flow(most, water, 1e-3, 0.5, 1.0).packing, 1.0);
}

// Common practice: a hole is clean when nine tenths of its cuttings are lifted.
TEST(CleansHole, AsksForNineTenthsLifted) {
  EXPECT_TRUE(cleans_hole(0.9, 1.0));
  EXPECT_FALSE(cleans_hole(0.899, 1.0));
  EXPECT_TRUE(cleans_hole(0.91, 2.0));
  EXPECT_FALSE(cleans_hole(1.0, 0.99));
}

// Cuttings thrown outward at u leave with 1 + u/(|u| + v) of what a flow of speed v carries: by hand.
TEST(SlotFlow, CarriesMoreOfWhatFacesThrowOutward) {
  const Slots slots = usual_slots();
  const double Q = 2e-3, v = Q / slots.area;
  const auto out = [&](double flow, double thrown) {
    return slot_flow(slots, water, flow, 0.02, 1.0, thrown).out;
  };
  EXPECT_NEAR(out(Q, v) / out(Q, 0.0), 1.5, 1e-12);
  EXPECT_NEAR(out(Q, -v) / out(Q, 0.0), 0.5, 1e-12);
  EXPECT_NEAR(out(Q, 0.1 * v) / out(Q, 0.0), 1.0 + 0.1 / 1.1, 1e-12);
  EXPECT_NEAR(out(Q, 1e6 * v) / out(Q, 0.0), 2.0, 1e-5);
  EXPECT_EQ(out(0.0, 0.3), 0.0) << "without flow nothing leaves";
}

TEST(SlotFlow, SlopesAreThoseOfTheValues) {
  for (const double thrown : {0.0, 0.4, -0.2}) {
    Slots slots = usual_slots();
    slots.port_area = 2e-4;
    for (const double limit : {infinity, 5e4}) {
      slots.pressure_limit = limit;
      for (double c = -0.2; c < 0.9; c += 0.0137) {
        constexpr double step = 1e-6;
        const SlotFlow below = slot_flow(slots, water, 2e-3, c - step, 0.6, thrown);
        const SlotFlow above = slot_flow(slots, water, 2e-3, c + step, 0.6, thrown);
        const SlotFlow here = slot_flow(slots, water, 2e-3, c, 0.6, thrown);
        // Central differences: rounding 1e-16/1e-6 of the value, truncation under 1e-5 of the slope.
        const double out_slope = (above.out - below.out) / (2.0 * step);
        EXPECT_NEAR(here.out_slope, out_slope, 1e-5 * std::abs(out_slope) + 1e-5) << c << " " << limit;
        EXPECT_NEAR(here.packing_slope, (above.packing - below.packing) / (2.0 * step), 1e-5) << c;
        const double overflow_slope = (above.overflow - below.overflow) / (2.0 * step);
        EXPECT_NEAR(here.overflow_slope, overflow_slope, 1e-5 * std::abs(overflow_slope) + 1e-5) << c;
      }
    }
  }
}

TEST(Plug, SlopeIsThatOfWhatIsFlushed) {
  constexpr double step = 1e-6;
  const Slots slots = usual_slots();
  for (double multiple = 2.0 * step; multiple < 8.0; multiple += 0.0137) {
    const double below = plug_over_bit(slots, 2e-3, 0.6, multiple - step).flushed;
    const double above = plug_over_bit(slots, 2e-3, 0.6, multiple + step).flushed;
    // Central differences: rounding 1e-16/1e-6 of the rate, 0.6/s; truncation step^2/6 of the third
    // derivative, under 3,300/s.
    EXPECT_NEAR(plug_over_bit(slots, 2e-3, 0.6, multiple).flushed_slope, (above - below) / (2.0 * step), 2e-9)
        << multiple;
  }
  // Where a trial state has less than no plug, the slope at none leads back.
  EXPECT_EQ(plug_over_bit(slots, 2e-3, 0.6, -0.5).flushed, 0.0);
  EXPECT_EQ(plug_over_bit(slots, 2e-3, 0.6, -0.5).flushed_slope,
            plug_over_bit(slots, 2e-3, 0.6, 0.0).flushed_slope);
}

TEST(SlotFlow, SlopesDoNotJump) {
  // C1: crossing every joint, the slopes of both sides agree as the step shrinks.
  const Slots slots = usual_slots();
  for (const double x : {0.0, 0.4, 0.9, 0.999, 1.0}) {
    const double c = x * slots.packed_fraction;
    const SlotFlow below = slot_flow(slots, water, 2e-3, c - 1e-10, 0.6);
    const SlotFlow above = slot_flow(slots, water, 2e-3, c + 1e-10, 0.6);
    EXPECT_NEAR(above.out_slope / below.out_slope, 1.0, 1e-5) << x;
    EXPECT_NEAR(above.packing_slope, below.packing_slope, 1e-6) << x;
  }
}

TEST(SlotFlow, MoreSolidsLeaveFaster) {
  const Slots slots = usual_slots();
  double last = -infinity;
  for (double c = -1.0; c < 2.0; c += 0.01) {
    const SlotFlow flow = slot_flow(slots, water, 1e-3, c, 0.5);
    EXPECT_GT(flow.out, last);
    EXPECT_GT(flow.out_slope, 0.0);
    last = flow.out;
  }
}

TEST(SlotFlow, IsTotalAndLetsNaNThrough) {
  Slots limited = usual_slots();
  limited.port_area = 1e-4;
  limited.pressure_limit = 1e5;
  for (const Slots& slots : {usual_slots(), limited, Slots{}}) {
    for (const double Q : {-1.0, 0.0, 1e-300, 1e-3, 1e3}) {
      for (const double c : {-1e3, -1.0, 0.0, 0.3, 0.58, 1.0, 1e3}) {
        for (const double lifted : {-1.0, 0.0, 0.5, 2.0}) {
          const SlotFlow flow = slot_flow(slots, water, Q, c, lifted);
          for (const double value :
               {flow.flow, flow.slot_velocity, flow.annulus_velocity, flow.pressure_drop, flow.out,
                flow.out_slope, flow.packing, flow.packing_slope, solids_rate(slots, flow, c, -1.0)})
            EXPECT_TRUE(std::isfinite(value)) << Q << " " << c << " " << lifted;
        }
      }
    }
  }
  for (const Slots& slots : {usual_slots(), limited}) {
    EXPECT_TRUE(std::isnan(slot_flow(slots, water, nan, 0.1, 1.0).flow));
    EXPECT_TRUE(std::isnan(slot_flow(slots, water, 1e-3, nan, 1.0).out));
    EXPECT_TRUE(std::isnan(slot_flow(slots, water, 1e-3, nan, 1.0).packing));
    EXPECT_TRUE(std::isnan(slot_flow(slots, water, 1e-3, 0.1, nan).out));
    EXPECT_TRUE(std::isnan(rate_at(slots, 1e-3, 0.1, 1.0, nan)));
  }
  EXPECT_TRUE(std::isfinite(slot_flow(limited, materials::Fluid{}, 1e-3, 0.1, 1.0).flow));
}

TEST(PackedEfficiency, FallsFromOneToThePackedShare) {
  EXPECT_EQ(packed_efficiency(0.0, 0.3), 1.0);
  EXPECT_NEAR(packed_efficiency(1.0, 0.3), 0.3, 1e-15);
  EXPECT_NEAR(packed_efficiency(0.5, 0.3), 0.65, 1e-15);
  EXPECT_EQ(packed_efficiency(-1.0, 0.3), 1.0);
  EXPECT_NEAR(packed_efficiency(7.0, 0.3), 0.3, 1e-15);
  EXPECT_TRUE(std::isnan(packed_efficiency(nan, 0.3)));
}

TEST(CleaningIndex, IsOneAtTheGreatestConcentration) {
  // Rock that makes 5 % of the stream.
  EXPECT_NEAR(cleaning_index(19e-3, 1.0, 1e-3), 1.0, 1e-12);
  EXPECT_NEAR(cleaning_index(19e-3, 0.5, 1e-3), 0.5, 1e-12);
  EXPECT_NEAR(cleaning_index(9e-3, 1.0, 1e-3, 0.1), 1.0, 1e-12);
  EXPECT_EQ(cleaning_index(0.0, 1.0, 1e-3), 0.0);
  EXPECT_EQ(cleaning_index(1e-3, 1.0, 0.0), 1e6);
  EXPECT_TRUE(std::isnan(cleaning_index(nan, 1.0, 1e-3)));
  EXPECT_TRUE(std::isnan(cleaning_index(1e-3, 1.0, nan)));
}

TEST(PluggingIndex, IsOneWhenAnInterruptionFillsTheSlots) {
  const Slots slots = usual_slots();
  EXPECT_NEAR(plugging_index(slots, 0.58 * slots.volume / 5.0), 1.0, 1e-12);
  EXPECT_NEAR(plugging_index(slots, 0.58 * slots.volume / 90.0, 90.0), 1.0, 1e-12);
  EXPECT_EQ(plugging_index(slots, -1.0), 0.0);
  EXPECT_TRUE(std::isnan(plugging_index(slots, nan)));
}

TEST(OpenSlotArea, IsTheHolesLessHubAndBlades) {
  EXPECT_NEAR(open_slot_area(0.1, 0, 0.04, 0.03), pi * (0.01 - 0.0009), 1e-15);
  EXPECT_EQ(open_slot_area(0.1, 20, 0.04, 0.03), 0.0);
  EXPECT_EQ(open_slot_area(0.1, 4, 0.04, 0.2), 0.0);
}

TEST(BallingRisk, RisesWithStickinessAndSolidsAndFallsWithPowerAndRoom) {
  constexpr double horsepower_an_inch = 745.699872 / 6.4516e-4;  // W/m2 of 1 hp/in2
  const double risk = balling_risk(0.8, 0.0, 0.1, 0.35);
  EXPECT_NEAR(risk, 0.8 * 0.1 / 0.15, 1e-12);
  EXPECT_NEAR(balling_risk(0.8, horsepower_an_inch, 0.1, 0.35) / risk, 0.5, 1e-8);
  EXPECT_LT(balling_risk(0.4, 0.0, 0.1, 0.35), risk);
  EXPECT_LT(balling_risk(0.8, 0.0, 0.05, 0.35), risk);
  EXPECT_LT(balling_risk(0.8, 0.0, 0.1, 0.5), risk);
  EXPECT_EQ(balling_risk(0.0, 0.0, 0.5, 0.35), 0.0);
  for (const double wild : {-1e9, -1.0, 0.0, 1.0, 1e9}) {
    for (const double other : {-1e9, 0.0, 1e9}) {
      const double value = balling_risk(wild, other, wild, other);
      EXPECT_GE(value, 0.0);
      EXPECT_LE(value, 1.0);
    }
  }
  EXPECT_TRUE(std::isnan(balling_risk(nan, 0.0, 0.1, 0.35)));
  EXPECT_TRUE(std::isnan(balling_risk(0.8, nan, 0.1, 0.35)));
  EXPECT_TRUE(std::isnan(balling_risk(0.8, 0.0, nan, 0.35)));
}

}  // namespace
}  // namespace dullcast::hydraulics
