// The heat reference on real cutters: convergence and balance.
#include "tools/heat_reference/cutter_heat.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <cstdio>

#include "models/common/constants.hpp"

namespace dullcast::heat_reference {
namespace {

/// A 13 x 8 mm cutter with a 2 mm table and a 12 mm2 flat; braze 1e4 W/(m2 K) over the upper half of the side
/// and the back.
CutterCase case_of_1308(double h, double bevel_width) {
  CutterCase c;
  c.cutter.shape = {6.5e-3, 8e-3, 2e-3, 0.0, bevel_width, pi / 4.0, 30e-6};
  c.cutter.back_rake = 15.0 * pi / 180.0;
  c.cutter.worn = worn_height_of_flat(c.cutter, 12e-6);
  c.diamond = {543.0, 3510.0 * 856.0};
  c.carbide = {100.0, 14900.0 * 220.0};
  c.h_table = c.h_carbide = h;
  c.pocket = 1e4;
  return c;
}

TEST(HeatReference, ResistanceConvergesUnderOnePerCent) {
  for (const double h : {50.0, 5e4}) {
    for (const double bevel : {0.0, 0.4e-3}) {
      const CutterCase c = case_of_1308(h, bevel);
      const double usual = HeatedCutter(c, {6, 0}).steady_resistance();
      const double coarse = HeatedCutter(c, {4, 0}).steady_resistance();
      const double middle = HeatedCutter(c, {4, 1}).steady_resistance();
      const double fine = HeatedCutter(c, {4, 2}).steady_resistance();
      // Second order: a third of the last change is left (Richardson).
      const double limit = fine + (fine - middle) / 3.0;
      std::printf("  h %6.0f, bevel %.1f mm: %.4f, %.4f, %.4f -> %.4f K/W; 6 cells off by %+.2f %%\n", h,
                  1e3 * bevel, coarse, middle, fine, limit, 100.0 * (usual / limit - 1.0));
      EXPECT_NEAR(fine / limit, 1.0, 0.0025);
      EXPECT_NEAR(usual / limit, 1.0, 0.01);
    }
  }
}

TEST(HeatReference, TransientConvergesUnderOnePerCent) {
  const CutterCase c = case_of_1308(1e4, 0.4e-3);
  const std::vector<double> times{0.05, 0.2};
  const auto usual = transient(HeatedCutter(c, {6, 0}), {{0.2, 1.0, 1.0}}, times, 4);
  const auto fine = transient(HeatedCutter(c, {6, 1}), {{0.2, 1.0, 1.0}}, times, 8);
  ASSERT_EQ(usual.size(), times.size());
  ASSERT_EQ(fine.size(), times.size());
  for (std::size_t i = 0; i < times.size(); ++i) {
    std::printf("  %.2f s: %.4f and %.4f K/W\n", times[i], usual[i].flat, fine[i].flat);
    EXPECT_NEAR(usual[i].flat / fine[i].flat, 1.0, 0.01) << times[i];
  }
}

TEST(HeatReference, WhatFlowsInLeavesByFluidAndPocket) {
  for (const double h : {50.0, 5e4}) {
    const HeatedCutter cutter(case_of_1308(h, 0.4e-3), {4, 0});
    const HeatedCutter::Losses losses = cutter.losses(cutter.steady_field());
    // Galerkin elements balance to the solver's tolerance.
    EXPECT_NEAR(losses.table + losses.carbide + losses.pocket, 1.0, 1e-7);
  }
}

TEST(HeatReference, LongHeatingReachesTheSteadyState) {
  const HeatedCutter cutter(case_of_1308(1e4, 0.0), {4, 0});
  const auto late = transient(cutter, {{60.0, 2.0, 1.0}}, {60.0}, 4);
  ASSERT_EQ(late.size(), 1U);
  EXPECT_NEAR(late[0].flat, 2.0 * cutter.steady_resistance(), 1e-5);
}

TEST(HeatReference, PumpStopWarmsAndRestartCools) {
  const HeatedCutter cutter(case_of_1308(1e4, 0.0), {4, 0});
  const auto samples =
      transient(cutter, {{10.0, 1.0, 1.0}, {10.0, 1.0, 0.005}, {20.0, 1.0, 1.0}}, {10.0, 20.0, 40.0}, 4);
  ASSERT_EQ(samples.size(), 3U);
  EXPECT_GT(samples[1].flat, 1.2 * samples[0].flat);
  EXPECT_NEAR(samples[2].flat, samples[0].flat, 0.01 * samples[0].flat);
}

}  // namespace
}  // namespace dullcast::heat_reference
