#include <gtest/gtest.h>

#include <utility>

#include "models/cutting/drill_string.hpp"

namespace dullcast::published {
namespace {

TEST(Buoyancy, FactorsOfTheDrillersTable) {
  // Buoyancy factors of steel, API RP 7G (table of drilling fluid densities) [hb, from memory]: factor by mud
  // weight in lbm/gal, made with steel of 65.5 lbm/gal; 1 lbm/gal = 119.826427 kg/m3. Tolerance half of the
  // last figure.
  const double pound_per_gallon = 119.826427;
  cutting::DrillString string;
  string.pipe_weight = 250.0;
  string.collar_weight = 1500.0;
  string.collar_length = 30.0;
  const double in_air = cutting::buoyed_string_weight(string, 200.0, 0.0);
  EXPECT_NEAR(in_air, 30.0 * 1500.0 + 170.0 * 250.0, 1e-9);
  for (const auto& [mud, factor] :
       {std::pair{8.34, 0.873}, std::pair{10.0, 0.847}, std::pair{12.0, 0.817}, std::pair{16.0, 0.756}}) {
    EXPECT_NEAR(cutting::buoyed_string_weight(string, 200.0, mud * pound_per_gallon) / in_air, factor, 0.0005)
        << mud;
  }
}

}  // namespace
}  // namespace dullcast::published
