#pragma once

#include <cstdint>
#include <string>

#include "models/thermal/heat_network.hpp"
#include "tools/heat_reference/cutter_heat.hpp"

namespace dullcast::heat_reference {

/// A cutter in its pocket as both the network and the 3-D reference take it.
struct ComparedCase {
  WornCutter cutter;
  thermal::CutterMaterials materials;
  double convection = 0.0;    // W/(m2 K) on all exposed faces
  double carbide_load = 0.0;  // 1, flux on the flat's carbide over that on its diamond
  Flat flat;
  double diamond_capacity = 0.0;  // J/(kg K), held: the comparison is linear
};

/// The case's 3-D problem: pocket conductance with the body's spreading resistance in series, as the network
/// has it.
CutterCase reference_case(const ComparedCase& of);

/// Case `number` of the random cases of `seed`: cutters of 8 to 19 mm, flats of 2 to 60 mm2 (as large as the
/// cutter can have), convection of 50 to 50,000 W/(m2 K), tables of 1 to 4 mm, lengths of 1.5 to 8 mm past
/// the table
/// ... steel and matrix pockets with the library's spreads. Same numbers on every machine.
ComparedCase random_case(std::uint64_t seed, std::uint64_t number);

/// The same for unworn cutters that bear on a land of 0.1 to 0.8 mm, as new ones do.
ComparedCase random_land_case(std::uint64_t seed, std::uint64_t number);
/// And for chips on the face, 0.3 to 3 mm deep.
ComparedCase random_chip_case(std::uint64_t seed, std::uint64_t number);

}  // namespace dullcast::heat_reference
