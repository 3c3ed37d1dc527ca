// Every number of the models as it is shipped, in SI: low, central, high and mark. A changed number must be
// changed here too, on purpose: forecasts rest on each of them. Sources stand beside them in
// scenarios/library/models.yaml.
#include <gtest/gtest.h>

#include <cmath>
#include <string>

#include "engine/input/reading.hpp"
#include "engine/scenario/number_fields.hpp"

namespace dullcast::input {
namespace {

struct Pin {
  const char* name;
  double low, central, high;  // SI
  const char* mark;
};

constexpr Pin pins[] = {
    {"drilling_efficiency", 0.5, 0.7, 0.95, "asm"},
    {"flat_friction", 0.3, 0.4, 0.5, "mem"},
    {"blade_friction", 0.2, 0.3, 0.4, "asm"},
    {"blade_bearing_ratio", 2.5, 4.0, 6.0, "mem"},
    {"land_reference", 0.00048, 0.0005545, 0.00085, "fit"},
    {"psi_at_reference", 0.209439510239, 0.261799387799, 0.314159265359, "fit"},
    {"psi_slope", 0.59, 1.0, 1.5, "fit"},
    {"psi_least", 0.0523598775598, 0.0872664625997, 0.12217304764, "fit"},
    {"land_bevel_width", 0.0004, 0.0004, 0.0004, "fit"},
    {"land_bevel_angle", 0.785398163397, 0.785398163397, 0.785398163397, "fit"},
    {"land_back_rake", 0.261799387799, 0.261799387799, 0.261799387799, "fit"},
    {"edge_radius", 2e-05, 3e-05, 5e-05, "mem"},
    {"rate_exponent", 0.03, 0.079, 0.15, "fit"},
    {"rate_speed", 0.4, 0.4, 0.4, "fit"},
    {"rate_depth", 0.0004, 0.0004, 0.0004, "fit"},
    {"chip_friction_speed_share", 0.3, 0.5, 0.7, "asm"},
    {"crushed_heat_share", 0.3, 0.6, 0.9, "asm"},
    {"rock_softens", 1073.15, 1173.15, 1273.15, "mem"},
    {"rock_melts", 1423.15, 1523.15, 1773.15, "mem"},
    {"abrasion_coefficient", 3e-18, 1e-17, 3e-17, "mem"},
    {"abrasivity_exponent", 1.0, 1.5, 2.0, "mem"},
    {"bit_to_bit_wear", 0.825, 1.0, 1.212, "asm"},
    {"cutting_wear_share", 0.3, 1.0, 5.0, "asm"},
    {"carbide_wear_ratio", 80.0, 150.0, 250.0, "cp"},
    {"carbide_load_share", 0.01, 0.1, 0.3, "asm"},
    {"acceleration_temperature", 593.15, 623.15, 653.15, "pub"},
    {"acceleration_scale", 70.0, 100.0, 150.0, "mem"},
    {"leached_acceleration_temperature", 773.15, 923.15, 1023.15, "asm"},
    {"damage_seconds_at_750", 20.0, 60.0, 180.0, "asm"},
    {"damage_seconds_at_700", 200.0, 600.0, 1800.0, "asm"},
    {"leached_limit", 1373.15, 1473.15, 1523.15, "pub"},
    {"spreading_edge_factor", 0.92, 1.0, 1.08, "fit"},
    {"pocket_conductance", 5000.0, 10000.0, 20000.0, "asm"},
    {"exposed_share", 0.4, 0.5, 0.6, "cp"},
    {"junk_slot_share", 0.25, 0.35, 0.45, "asm"},
    {"body_wetted_share", 4.0, 6.0, 9.0, "asm"},
    {"bottom_hole_conductance", 200.0, 500.0, 1500.0, "asm"},
    {"settling_time", 0.02, 0.05, 0.1, "asm"},
    {"warm_skin_depth", 0.004, 0.006, 0.008, "asm"},
    {"dry_capacity_share", 0.02, 0.05, 0.1, "asm"},
    {"wall_speed_share", 0.3, 0.5, 0.7, "asm"},
    {"jet_path_share", 0.3, 0.5, 0.8, "asm"},
    {"weibull_modulus", 8.0, 10.0, 14.0, "mem"},
    {"edge_hot_share", 0.5, 0.7, 0.85, "asm"},
    {"edge_damaged_share", 0.2, 0.3, 0.5, "asm"},
    {"roughness_impacts", 0.3, 1.0, 3.0, "asm"},
    {"roughness_overload", 1.2, 1.5, 2.0, "asm"},
    {"load_variation", 0.3, 0.45, 0.7, "asm"},
    {"brittle_strength", 60000000.0, 100000000.0, 160000000.0, "asm"},
    {"bottom_unevenness", 5e-05, 0.00015, 0.0005, "asm"},
    {"stone_protrusion", 0.005, 0.02, 0.06, "asm"},
    {"touch_down_overload", 1.2, 1.5, 3.0, "asm"},
    {"impact_impedance", 9000000.0, 12000000.0, 15000000.0, "hb"},
    {"chip_size_share", 0.2, 0.4, 0.8, "asm"},
    {"shock_share", 0.3, 0.6, 1.0, "asm"},
    {"boundary_undulation", 0.003, 0.01, 0.03, "asm"},
    {"table_modulus", 700000000000.0, 800000000000.0, 950000000000.0, "mem"},
    {"table_expansion", 2e-06, 2.5e-06, 3.5e-06, "mem"},
    {"table_poisson", 0.07, 0.1, 0.2, "mem"},
    {"braze_strength", 180000000.0, 230000000.0, 280000000.0, "hb"},
    {"braze_softening", 473.15, 523.15, 573.15, "asm"},
    {"braze_solidus", 878.15, 913.15, 963.15, "hb"},
    {"bond_mismatch", 300000.0, 500000.0, 800000.0, "asm"},
    {"bond_neutral_temperature", 288.15, 293.15, 298.15, "asm"},
    {"port_discharge", 0.9, 0.95, 0.98, "hb"},
    {"cuttings_spread", 0.8, 1.0, 1.3, "asm"},
    {"packed_fraction", 0.5, 0.58, 0.64, "hb"},
    {"packed_share", 0.15, 0.3, 0.5, "asm"},
    {"slot_height", 0.7, 1.0, 1.3, "asm"},
    {"suspending_transport", 0.35, 0.5, 0.65, "cp"},
    {"burying_height", 0.3, 0.6, 1.0, "asm"},
    {"bed_grain", 0.3e-3, 0.5e-3, 0.8e-3, "asm"},
    {"water_height", 0.5, 1.0, 2.0, "asm"},
    {"boiling_surface_factor", 0.008, 0.0128, 0.015, "asm"},
    {"steam_convection", 20.0, 60.0, 150.0, "asm"},
    {"fall_back_time", 2.0, 5.0, 10.0, "asm"},
    {"flash_time", 0.5, 1.0, 2.0, "asm"},
    {"level_band", 0.2, 0.5, 1.0, "asm"},
    {"dry_out_factor", 0.5, 1.0, 1.5, "pub"},
    {"packed_pores_loss", 0.97, 0.985, 0.995, "mem"},
    {"packed_void_share", 0.36, 0.4, 0.5, "hb"},
    {"renewal_turns", 2.0, 5.0, 10.0, "asm"},
    {"still_expansion", 0.005, 0.01, 0.03, "hb"},
    {"erosion_coefficient", 5e-09, 2e-08, 8e-08, "asm"},
    {"rubbing_coefficient", 3e-16, 1e-15, 3e-15, "asm"},
    {"pad_seating", 5e-05, 0.0001, 0.0003, "asm"},
};

TEST(PinnedNumbers, OfTheModelsAreAsShipped) {
  const scenario::ModelNumbers& numbers = testing::reader().library().models;
  const auto fields = scenario::number_fields(numbers);
  ASSERT_EQ(fields.size(), std::size(pins));
  for (std::size_t k = 0; k < fields.size(); ++k) {
    const scenario::Quantity& found = numbers.*fields[k].member;
    const Pin& pin = pins[k];
    EXPECT_STREQ(fields[k].key, pin.name);
    // The pins have twelve digits.
    const auto same = [](double a, double b) { return std::abs(a - b) <= 1e-11 * std::abs(b); };
    EXPECT_TRUE(same(found.low, pin.low)) << pin.name << " low " << found.low;
    EXPECT_TRUE(same(found.central, pin.central)) << pin.name << " central " << found.central;
    EXPECT_TRUE(same(found.high, pin.high)) << pin.name << " high " << found.high;
    EXPECT_EQ(found.mark, pin.mark) << pin.name;
  }
}

}  // namespace
}  // namespace dullcast::input
