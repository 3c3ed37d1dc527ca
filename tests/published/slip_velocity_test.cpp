#include <gtest/gtest.h>

#include <cmath>

#include "models/common/constants.hpp"
#include "models/hydraulics/cuttings.hpp"
#include "tools/proofs/handbook_setting.hpp"

namespace dullcast::published {
namespace {

TEST(SlipVelocity, CrushedLimestoneOfUnitOperations) {
  // McCabe, Smith & Harriott, Unit Operations of Chemical Engineering, example 7.1 [hb, from memory]:
  // limestone of 80 to 100 mesh (0.161 mm), 2,800 kg/m3, in water at 30 C (995.7 kg/m3, 0.801 cP); from the
  // book's drag chart C_d 7.9 at Re 4.4, so 0.0220 m/s. Tolerance: 5 % for a chart read to two figures (2 %
  // in speed) and natural grains against its curve.
  const materials::Fluid water{995.7, 0.801e-3, 0.6, 4180.0};
  const double v = hydraulics::slip_velocity(water, 2800.0, 0.161e-3);
  EXPECT_NEAR(v / 0.0220, 1.0, 0.05);
  // The example hangs together: its speed follows from its own drag coefficient.
  EXPECT_NEAR(std::sqrt(4.0 * standard_gravity * (2800.0 - 995.7) * 0.161e-3 / (3.0 * 7.9 * 995.7)), 0.0220,
              5e-5);
}

TEST(SlipVelocity, NaturalSandByTwoOtherFormulas) {
  // van Rijn, J. Hydraulic Engineering 110, 1984, and Soulsby, Dynamics of Marine Sands, 1997, for natural
  // sand [pub, from memory]; quartz of 2,650 kg/m3 in water at 20 C. The two differ from each other by up to
  // 12 % in this range, so that much is allowed.
  const materials::Fluid water{998.2, 1.002e-3, 0.6, 4180.0};
  for (double D = 0.2e-3; D < 4e-3; D *= 1.1) {
    const double v = hydraulics::slip_velocity(water, 2650.0, D);
    EXPECT_NEAR(v / proofs::van_rijn_settling(D), 1.0, 0.12) << D;
    EXPECT_NEAR(v / proofs::soulsby_settling(D), 1.0, 0.12) << D;
  }
}

}  // namespace
}  // namespace dullcast::published
