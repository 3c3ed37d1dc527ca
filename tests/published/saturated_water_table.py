"""Writes saturated_water_table.hpp: water at saturation by IAPWS-IF97, for saturated_water_test.cpp.

    /usr/bin/python3 tests/published/saturated_water_table.py > tests/published/saturated_water_table.hpp

The properties come from the package python3-iapws 1.5.3-1 of Debian 12, which shares no code with the engine. The
test needs only what this wrote.
"""
from iapws import IAPWS97

# Pa: 5 kPa to 20 MPa, some eight a decade, closer together where properties bend towards the critical point.
PRESSURES = [
    5e3, 7e3, 1e4, 1.3e4, 1.8e4, 2.4e4, 3.2e4, 4.2e4, 5.6e4, 7.5e4,
    1e5, 101325, 1.3e5, 1.8e5, 2.4e5, 3.2e5, 4.2e5, 5.6e5, 7.5e5,
    1e6, 1.3e6, 1.8e6, 2.4e6, 3.2e6, 4.2e6, 5.6e6, 6.5e6, 7.5e6, 8.7e6,
    1e7, 1.1e7, 1.2e7, 1.3e7, 1.4e7, 1.5e7, 1.6e7, 1.65e7, 1.7e7, 1.75e7, 1.8e7, 1.85e7, 1.9e7, 1.95e7, 2e7,
]


def row(pressure):
    liquid, vapour = (IAPWS97(P=pressure * 1e-6, x=x) for x in (0, 1))
    values = [
        liquid.T, (vapour.h - liquid.h) * 1e3, liquid.rho, vapour.rho, liquid.sigma,
        liquid.cp * 1e3, liquid.mu, liquid.k, vapour.cp * 1e3, vapour.mu, vapour.k,
    ]
    return "    {" + ", ".join(f"{value:.9g}" for value in [pressure] + values) + "},"


print(f"""// Written by saturated_water_table.py: do not edit.
#pragma once

#include "models/materials/saturated_water.hpp"

namespace dullcast::published {{

/// Water at saturation by IAPWS-IF97 [pub: R7-97(2012)], with the IAPWS equations for surface tension [pub:
/// R1-76(2014)], viscosity [pub: R12-08] and conductivity with its critical enhancement [pub: R15-11],
/// computed by python3-iapws 1.5.3-1 of Debian 12. Fields in the order of SaturatedWater.
inline constexpr materials::SaturatedWater saturated_water_table[] = {{
    // clang-format off""")
print("\n".join(row(pressure) for pressure in PRESSURES))
print("""    // clang-format on
};

}  // namespace dullcast::published""")
