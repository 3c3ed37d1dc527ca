#pragma once

#include "models/thermal/boiling.hpp"

/// Settings of handbook examples. Shared with the tests that assert them.
namespace dullcast::proofs {

/// Water at one atmosphere as Incropera & DeWitt, Fundamentals of Heat and Mass Transfer [hb, from memory],
/// example 10.1, takes it from table A.6. Its printed Prandtl number, 1.76, is not c mu/k of the other
/// columns (1.73): the conductivity here is the one that gives it.
materials::SaturatedWater textbook_water();

/// The same with steam at 450 K and one atmosphere from table A.4, as in example 10.2.
materials::SaturatedWater textbook_film();

/// Pressure between 0.1 and 20 MPa at which the model's critical heat flux of water is greatest, Pa.
double pressure_of_greatest_critical_flux();

/// Greatest of mean minus surface temperature of a plate cooled on both faces, over the initial difference,
/// at a Biot number: series of Carslaw & Jaeger 1959, sec. 3.11 [hb], roots of mu tan(mu) = Bi by bisection.
double exact_plate_stress(double biot);

/// Speed at which natural quartz sand of diameter D (m) settles in water at 20 C, m/s: van Rijn, J. Hydraulic
/// Engineering 110, 1984; Soulsby, Dynamics of Marine Sands, 1997 [pub, from memory].
double van_rijn_settling(double D);
double soulsby_settling(double D);

}  // namespace dullcast::proofs
