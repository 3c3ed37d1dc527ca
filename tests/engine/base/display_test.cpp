#include "engine/base/display.hpp"

#include <gtest/gtest.h>

#include <limits>

// Conversions after NIST Special Publication 811 (2008), appendix B [hb].
namespace dullcast::base {
namespace {

TEST(Display, NumbersKeepTheirFiguresAndNoExponent) {
  EXPECT_EQ(show_number(6750.4), "6750");
  EXPECT_EQ(show_number(0.40000001), "0.4");
  EXPECT_EQ(show_number(999.6), "1000");
  EXPECT_EQ(show_number(0.0009996), "0.001");
  EXPECT_EQ(show_number(1.2345e7), "12345000");
  EXPECT_EQ(show_number(-2.5), "-2.5");
  EXPECT_EQ(show_number(0.0), "0");
  EXPECT_EQ(show_number(3.14159, 5), "3.1416");
  EXPECT_EQ(show_number(std::numeric_limits<double>::quiet_NaN()), "not known");
  EXPECT_EQ(show_number(std::numeric_limits<double>::infinity()), "without limit");
}

TEST(Display, FieldUnitsSiOrBoth) {
  EXPECT_EQ(show(30025.5, shown::weight, ShownUnits::field), "6750 lbf");
  EXPECT_EQ(show(30025.5, shown::weight, ShownUnits::si), "30 kN");
  EXPECT_EQ(show(30025.5, shown::weight, ShownUnits::both), "6750 lbf (30 kN)");
  EXPECT_EQ(show(1.5, shown::rotary_speed, ShownUnits::both), "90 rpm");
  EXPECT_EQ(show(623.15, shown::temperature, ShownUnits::both), "662 degF (350 degC)");
  EXPECT_EQ(show(100.0, shown::temperature_difference, ShownUnits::both), "180 F deg (100 K)");
  EXPECT_EQ(show(0.3048 / 36.0, shown::progress, ShownUnits::both), "100 ft/h (30.5 m/h)");
  EXPECT_EQ(show(3.785411784e-3, shown::flow, ShownUnits::both, 4), "60 gal/min (227.1 L/min)");
  EXPECT_EQ(show(1.3558179483314004, shown::torque, ShownUnits::field), "1 ft lbf");
  EXPECT_EQ(show(6894.757293168, shown::pressure, ShownUnits::both), "1 psi (0.00689 MPa)");
  EXPECT_EQ(show(2684519.537696173, shown::energy, ShownUnits::both), "1 hp h (2.68 MJ)");
  EXPECT_EQ(show(0.0254, shown::length, ShownUnits::both), "1 in (25.4 mm)");
}

TEST(Display, DepthsAndMoney) {
  EXPECT_EQ(depth_text(30.48), "30.48 m (100 ft)");
  EXPECT_EQ(show_money(420.0, "$"), "420 $");
  EXPECT_EQ(show_money_per_length(100.0, "$", ShownUnits::both), "30.5 $/ft (100 $/m)");
}

TEST(Display, BytesInTheLargestUnitThatLeavesAWholeOne) {
  EXPECT_EQ(show_bytes(0.0), "0 B");
  EXPECT_EQ(show_bytes(999.0), "999 B");
  EXPECT_EQ(show_bytes(4.24e6), "4.2 MB");
  EXPECT_EQ(show_bytes(5.6e12), "5.6 TB");
  EXPECT_EQ(show_bytes(5.6e18), "5600 PB");
}

}  // namespace
}  // namespace dullcast::base
