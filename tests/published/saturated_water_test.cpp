#include "models/materials/saturated_water.hpp"

#include <gtest/gtest.h>

#include "models/common/constants.hpp"
#include "published/saturated_water_table.hpp"

namespace dullcast::published {
namespace {

TEST(SaturatedWater, OfAnotherImplementationOfTheIapwsEquations) {
  // The table's origin is told with it. Tolerances are the worst deviations measured, rounded up, as
  // saturated_water.hpp states them: 5 kPa to 1 MPa, to 10 MPa, to 20 MPa. Temperature and surface tension
  // are the same equations, which leaves the table's nine figures and, near the critical point, their effect
  // on 1 - T/T_c; densities and latent heat are SR1-86 against IF97; the rest is a textbook's table.
  using Water = materials::SaturatedWater;
  struct Property {
    const char* name;
    double Water::*value;
    double worst[3];
  };
  const Property properties[] = {
      {"temperature", &Water::temperature, {2e-9, 2e-9, 2e-9}},
      {"latent heat", &Water::latent_heat, {8.2e-5, 2.4e-4, 1.7e-3}},
      {"liquid density", &Water::liquid_density, {2.2e-5, 2.9e-4, 4.3e-4}},
      {"vapour density", &Water::vapour_density, {1.4e-4, 3.3e-4, 8.0e-4}},
      {"surface tension", &Water::surface_tension, {2e-9, 5e-9, 3e-8}},
      {"liquid heat capacity", &Water::liquid_heat_capacity, {1.6e-3, 4.8e-3, 0.113}},
      {"liquid viscosity", &Water::liquid_viscosity, {9.9e-3, 0.058, 0.078}},
      {"liquid conductivity", &Water::liquid_conductivity, {9.7e-3, 0.027, 0.14}},
      {"vapour heat capacity", &Water::vapour_heat_capacity, {0.045, 0.060, 0.132}},
      {"vapour viscosity", &Water::vapour_viscosity, {0.063, 0.031, 0.152}},
      {"vapour conductivity", &Water::vapour_conductivity, {0.059, 0.044, 0.394}},
  };
  for (const Water& row : saturated_water_table) {
    const Water water = materials::saturated_water(row.pressure);
    const int range = row.pressure <= 1e6 ? 0 : row.pressure <= 10e6 ? 1 : 2;
    for (const Property& property : properties)
      EXPECT_NEAR(water.*property.value / (row.*property.value), 1.0, property.worst[range])
          << property.name << " at " << row.pressure;
  }
}

TEST(SaturatedWater, DensitiesOfTheIapwsRelease) {
  // IAPWS SR1-86(1992), verification table [pub, from memory]; tolerance half of the last figure printed.
  EXPECT_NEAR(materials::saturated_liquid_density(273.16), 999.789, 5e-4);
  EXPECT_NEAR(materials::saturated_vapour_density(273.16), 0.00485426, 5e-9);
  EXPECT_NEAR(materials::saturated_liquid_density(373.1243), 958.365, 5e-4);
  EXPECT_NEAR(materials::saturated_vapour_density(373.1243), 0.597586, 5e-7);
  EXPECT_NEAR(materials::saturated_liquid_density(647.096), 322.0, 1e-9);
  EXPECT_NEAR(materials::saturated_vapour_density(647.096), 322.0, 1e-9);
}

TEST(SaturatedWater, PressureOfTheIapwsIndustrialFormulation) {
  // IAPWS R7-97(2012), table 35 [pub], MPa; tolerance half of the ninth figure printed.
  EXPECT_NEAR(materials::saturation_pressure(300.0) * 1e-6, 0.353658941e-2, 5e-12);
  EXPECT_NEAR(materials::saturation_pressure(500.0) * 1e-6, 0.263889776e1, 5e-9);
  EXPECT_NEAR(materials::saturation_pressure(600.0) * 1e-6, 0.123443146e2, 5e-8);
}

TEST(SaturatedWater, LatentHeatOfTheSteamTables) {
  // One atmosphere: the two enthalpies of the SR1-86 table, 2,675.7 and 419.05 kJ/kg, each rounded.
  EXPECT_NEAR(materials::saturated_water(standard_atmosphere).latent_heat, 2675.7e3 - 419.05e3, 0.06e3);
  // 1 and 10 MPa: IAPWS-IF97 steam tables, h'' - h' [pub, from memory]. The two formulations' enthalpies
  // agree to 0.03 %.
  EXPECT_NEAR(materials::saturated_water(1e6).latent_heat / (2777.12e3 - 762.68e3), 1.0, 3e-4);
  EXPECT_NEAR(materials::saturated_water(10e6).latent_heat / (2725.47e3 - 1407.87e3), 1.0, 3e-4);
}

TEST(SaturatedWater, VolumesOfTheSteamTables) {
  // IAPWS-IF97 steam tables [pub, from memory]; tolerance 0.03 % liquid, 0.05 % vapour:
  // SR1-86 and IF97 are two formulations.
  EXPECT_NEAR(1.0 / materials::saturated_water(1e6).liquid_density / 1.12723e-3, 1.0, 3e-4);
  EXPECT_NEAR(1.0 / materials::saturated_water(1e6).vapour_density / 0.194349, 1.0, 5e-4);
  EXPECT_NEAR(1.0 / materials::saturated_water(10e6).liquid_density / 1.45262e-3, 1.0, 3e-4);
  EXPECT_NEAR(1.0 / materials::saturated_water(10e6).vapour_density / 0.0180336, 1.0, 5e-4);
}

TEST(SaturatedWater, SurfaceTensionOfTheIapwsRelease) {
  // IAPWS R1-76(2014), table 1 [pub, from memory]: 58.91, 37.67 and 14.36 mN/m at 100, 200 and 300 C;
  // tolerance one of the last figure printed.
  for (const auto& [celsius, tension] : {std::pair{100.0, 58.91e-3}, {200.0, 37.67e-3}, {300.0, 14.36e-3}})
    EXPECT_NEAR(
        materials::saturated_water(materials::saturation_pressure(celsius_zero + celsius)).surface_tension,
        tension, 1e-5);
}

TEST(SaturatedWater, TransportPropertiesOfAnotherTable) {
  // Perry's Chemical Engineers' Handbook, 9th ed., table 2-135 (reference equations of NIST): liquid at 310,
  // 350 and 390 K, c_p in J/(mol K), viscosity uPa s, conductivity mW/(m K). A textbook table of three
  // figures is interpolated here: 1 %.
  struct Row {
    double T, heat_capacity, viscosity, conductivity;
  };
  for (const Row& row : {Row{310.0, 75.294, 693.54, 626.05},
                         {350.0, 75.567, 368.77, 668.00},
                         {390.0, 76.357, 238.77, 682.83}}) {
    const materials::SaturatedWater water = materials::saturated_water(materials::saturation_pressure(row.T));
    EXPECT_NEAR(water.liquid_heat_capacity / (row.heat_capacity / 18.015268e-3), 1.0, 0.01) << row.T;
    EXPECT_NEAR(water.liquid_viscosity / (row.viscosity * 1e-6), 1.0, 0.0105) << row.T;
    EXPECT_NEAR(water.liquid_conductivity / (row.conductivity * 1e-3), 1.0, 0.01) << row.T;
  }
}

TEST(SaturatedWater, TransportPropertiesBetweenTheTablesRows) {
  // Incropera & DeWitt, table A.6 [hb, from memory]: the rows at 373.15, 345 and 625 K, which are no nodes
  // here.
  const materials::SaturatedWater boiling =
      materials::saturated_water(materials::saturation_pressure(373.15));
  EXPECT_NEAR(boiling.liquid_heat_capacity, 4217.0, 2.0);
  EXPECT_NEAR(boiling.liquid_viscosity, 279e-6, 1e-6);
  EXPECT_NEAR(boiling.liquid_conductivity, 0.680, 1e-3);
  EXPECT_NEAR(boiling.vapour_heat_capacity, 2029.0, 2.0);
  EXPECT_NEAR(boiling.vapour_viscosity, 12.02e-6, 2e-8);
  EXPECT_NEAR(boiling.vapour_conductivity, 0.0248, 1e-4);
  EXPECT_NEAR(materials::saturated_water(materials::saturation_pressure(345.0)).liquid_viscosity, 389e-6,
              3e-6);
  // Near the critical point the heat capacities bend between the rows: 4 %.
  EXPECT_NEAR(materials::saturated_water(materials::saturation_pressure(625.0)).liquid_heat_capacity / 10.6e3,
              1.0, 0.04);
  EXPECT_NEAR(materials::saturated_water(materials::saturation_pressure(625.0)).vapour_heat_capacity / 18.3e3,
              1.0, 0.04);
}

}  // namespace
}  // namespace dullcast::published
