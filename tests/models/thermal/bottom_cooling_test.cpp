#include "models/thermal/bottom_cooling.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "models/thermal/bed_dry_out.hpp"
#include "models/thermal/convection.hpp"

namespace dullcast::thermal {
namespace {

const materials::Fluid water{999.0, 1.1e-3, 0.59, 4186.0};

CoolingLaw law() {
  CoolingLaw law;
  law.radius = Eigen::Array3d(0.01, 0.05, 0.1);
  law.cutter_diameter = Eigen::Array3d::Constant(13e-3);
  law.bit_radius = 0.1;
  law.slot_diameter = 0.06;
  law.slot_volume = 2e-3;
  law.wall_speed_share = 0.5;
  law.boiling_surface_factor = 0.0128;
  law.steam_convection = 60.0;
  law.packed_void_share = 0.4;
  law.bed_grain = 0.5e-3;
  law.dry_out_factor = 1.0;
  law.renewal_turns = 5.0;
  law.still_expansion = 0.01;
  return law;
}

/// A usual flow, 30 m under water.
BottomConditions flowing() {
  BottomConditions at;
  at.fluid = water;
  at.pressure = 4e5;
  at.temperature = 300.0;
  at.full_mass = 8.0;
  at.slot_velocity = 0.35;
  at.renewal = 1.8;
  at.rotary_speed = 1.5;
  at.rock_conductivity = 2.7;
  at.rock_temperature = 290.0;
  return at;
}

Cooling cooled(const BottomConditions& at) {
  Cooling cooling;
  cooling.convection.setZero(3);
  cooling.bare.setZero(3);
  cool_bottom(law(), at, cooling);
  return cooling;
}

TEST(BottomCooling, UsualFlowIsCrossFlowOfSlotAndRotation) {
  const Cooling cooling = cooled(flowing());
  for (Eigen::Index i = 0; i < 3; ++i) {
    const double v = speed_past_cutter(0.35, 1.5, law().radius(i));
    EXPECT_EQ(cooling.convection(i), cutter_convection(water, v, 13e-3));
  }
  EXPECT_EQ(cooling.body, slot_convection(water, speed_past_cutter(0.35, 0.75, 0.1), 0.06));
}

// Where nothing renews the water between the blades it turns with them: what is left is free convection, the
// same for every cutter.
TEST(BottomCooling, RotationIsNoCrossFlowInStillWater) {
  BottomConditions still = flowing();
  still.slot_velocity = still.renewal = 0.0;
  const Cooling cooling = cooled(still);
  const double free = free_convection(water, 0.01);
  EXPECT_NEAR(cooling.convection(2), free, 0.05 * free);
  EXPECT_EQ(cooling.convection(2), cooling.convection(0));
  EXPECT_LT(cooling.convection(2), 0.3 * cooled(flowing()).convection(2));
  still.rotary_speed = 3.0;
  EXPECT_EQ(cooled(still).convection(2), cooling.convection(2));
}

// Convection goes with the root of the speed, so the first thousandth of the flow brings the most.
TEST(BottomCooling, WithTheFlowRotationFadesContinuously) {
  BottomConditions at = flowing();
  const double full = cooled(at).convection(2);
  double last = 0.0;
  for (int thousandths = 0; thousandths <= 1000; ++thousandths) {
    at.slot_velocity = 0.35e-3 * thousandths;
    at.renewal = 1.8e-3 * thousandths;
    const double h = cooled(at).convection(2);
    if (thousandths > 0) {
      EXPECT_LT(std::abs(h - last), 0.03 * full) << thousandths;
    }
    last = h;
  }
  EXPECT_EQ(last, full);
}

TEST(BottomCooling, ABuriedCutterLosesHeatThroughTheGrainsOnly) {
  BottomConditions at = flowing();
  at.buried = 1.0;
  const Cooling cooling = cooled(at);
  EXPECT_EQ(cooling.convection(2), packed_bed_convection(packed_bed_conductivity(2.7, 0.59, 0.4), 13e-3));
  EXPECT_EQ(cooling.body, cooled(flowing()).body) << "walls above the bed stay in the stream";
  EXPECT_EQ(cooling.dry_out_flux, bed_dry_out_flux(cooling.water, 0.5e-3, 0.4));
  // 250 kW/m2 of nucleate boiling on a bare surface are more than the bed lets through.
  const double T = cooling.water.temperature + 20.0;
  EXPECT_GT(surface_heat(law(), cooled(flowing()), 2, T, 300.0).flux, 2.0 * cooling.dry_out_flux);
  EXPECT_LE(surface_heat(law(), cooling, 2, T, 300.0).flux, cooling.dry_out_flux);
}

// Under a film a surface is told about how far from it it is: by what convection carries beside the nucleate
// flux too far, and always under it.
TEST(BottomCooling, TellsAboutHowFarUnderAFilmASurfaceIs) {
  for (const double buried : {0.0, 1.0}) {
    BottomConditions at = flowing();
    at.buried = buried;
    const Cooling cooling = cooled(at);
    double begins = cooling.water.temperature;
    while (surface_heat(law(), cooling, 1, begins, 300.0).regime != BoilingRegime::film) begins += 0.05;
    for (const double under : {1.0, 30.0, 120.0}) {
      const double told = about_under_film(cooling, begins - under);
      EXPECT_LE(told, -under + 0.5) << buried << " " << under;
      EXPECT_NEAR(told, -under, 5.0) << buried << " " << under;
    }
    EXPECT_EQ(about_under_film(cooling, begins + 50.0), -0.5);
    EXPECT_EQ(about_under_film(cooling, begins - 2000.0), far_from_film);
  }
  BottomConditions air = flowing();
  air.liquid = false;
  EXPECT_EQ(about_under_film(cooled(air), 500.0), far_from_film);
}

// Each cutter through its own bed, packed walls through the mean of these: by hand for 13, 13 and 16 mm.
TEST(BottomCooling, ABedConductsByEachCuttersOwnDiameter) {
  CoolingLaw mixed = law();
  mixed.cutter_diameter(2) = 16e-3;
  BottomConditions at = flowing();
  at.buried = at.packing = 1.0;
  Cooling cooling;
  cooling.convection.setZero(3);
  cooling.bare.setZero(3);
  cool_bottom(mixed, at, cooling);
  const double k = packed_bed_conductivity(2.7, 0.59, 0.4);
  EXPECT_NEAR(cooling.convection(0), 2.0 * k / 13e-3, 1e-9);
  EXPECT_NEAR(cooling.convection(2), 2.0 * k / 16e-3, 1e-9);
  EXPECT_NEAR(cooling.body, 2.0 * k * (2.0 / 13e-3 + 1.0 / 16e-3) / 3.0, 1e-9);
}

// A bed is dry whatever a cutter gives it where the work done in it makes more steam than it lets through;
// rock that is cut fast takes that heat along.
TEST(BottomCooling, TheWorkDoneInTheBedTakesItsShareOfTheDryOutFlux) {
  BottomConditions at = flowing();
  at.buried = 1.0;
  const double all = cooled(at).dry_out_flux;
  at.work = 0.5 * all;
  EXPECT_NEAR(cooled(at).dry_out_flux, 0.5 * all, 1e-9 * all);
  at.work = 3.0 * all;
  EXPECT_NEAR(cooled(at).dry_out_flux, 0.02 * all, 1e-9 * all);
  at.rock_capacity_rate = 3.0 * all / (cooled(at).water.temperature - at.rock_temperature);
  EXPECT_NEAR(cooled(at).dry_out_flux, all, 1e-9 * all);
  at.rock_capacity_rate *= 2.5 / 3.0;
  EXPECT_NEAR(cooled(at).dry_out_flux, 0.5 * all, 1e-9 * all);
}

// By hand: water that fills half the slots wets half of what stands in them, as a cubic step has it.
TEST(BottomCooling, WaterThatSinksIntoTheSlotsBaresTheBit) {
  BottomConditions at = flowing();
  const double in_slots = law().slot_volume * 999.0 / at.full_mass;
  for (const auto& [filled, wetted] : {std::pair{0.5, 0.5}, {0.25, 0.15625}, {1.0, 1.0}, {1.5, 1.0}}) {
    at.water_share = filled * in_slots;
    const Cooling cooling = cooled(at);
    EXPECT_NEAR(cooling.wetted_share, wetted, 1e-12) << filled;
    const double stream = cooled(flowing()).body;
    EXPECT_NEAR(cooling.body, wetted * stream + (1.0 - wetted) * 60.0, 1e-9 * stream) << filled;
  }
}

TEST(BottomCooling, HalfBuriedIsHalfOfEach) {
  BottomConditions at = flowing();
  const double T = 420.0, bare = surface_heat(law(), cooled(at), 1, T, 300.0).flux;
  at.buried = 1.0;
  const double buried = surface_heat(law(), cooled(at), 1, T, 300.0).flux;
  at.buried = 0.5;
  EXPECT_NEAR(surface_heat(law(), cooled(at), 1, T, 300.0).flux, 0.5 * (bare + buried), 1e-9 * bare);
}

/// Bare surfaces of convection 2,000 W/(m2 K).
Cooling bare_cooling() {
  Cooling cooling;
  cooling.convection.setConstant(3, 2000.0);
  cooling.bare = cooling.convection;
  return cooling;
}

TEST(SurfaceHeat, WhereNothingBoilsIsConvection) {
  Cooling cooling = bare_cooling();
  cooling.boils = false;
  const SurfaceHeat heat = surface_heat(law(), cooling, 1, 600.0, 300.0);
  EXPECT_DOUBLE_EQ(heat.flux, 6e5);
  EXPECT_DOUBLE_EQ(heat.surface_slope, 2000.0);
  EXPECT_DOUBLE_EQ(heat.fluid_slope, 2000.0);
  EXPECT_EQ(heat.regime, BoilingRegime::single_phase);
}

// Cold water below saturation convects; steam takes the share of the surface that water does not reach.
TEST(SurfaceHeat, IsSharedBetweenWaterAndSteam) {
  Cooling cooling = bare_cooling();
  cooling.boils = true;
  cooling.water = materials::saturated_water(1e6);
  cooling.critical_flux = 3e6;
  for (const double share : {0.0, 0.25, 1.0}) {
    cooling.wetted_share = share;
    const SurfaceHeat heat = surface_heat(law(), cooling, 1, 350.0, 300.0);
    const double h = share * 2000.0 + (1.0 - share) * law().steam_convection;
    EXPECT_DOUBLE_EQ(heat.flux, h * 50.0);
    EXPECT_DOUBLE_EQ(heat.surface_slope, h);
    EXPECT_DOUBLE_EQ(heat.fluid_slope, h);
  }
}

}  // namespace
}  // namespace dullcast::thermal
