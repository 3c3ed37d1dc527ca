#pragma once

#include <string>
#include <vector>

/// What the bits of an invented shop did, as its records tell it.
namespace dullcast::shelf_maker {

struct RockMetres {
  std::string rock;
  int metres = 0;  // all holes together
};

struct BitDrilled {
  std::string name, day, scenario, lot;
  int holes = 1;
  std::vector<RockMetres> ground;
  int weight = 0;  // lbf
  int speed = 0;   // rpm
  int flow = 0;    // gal/min
};

/// Forty bits: three to twelve holes each, in seven kinds of ground whose rocks stand in different
/// proportions, so that their wear can be told apart; two scenarios, two lots of cutters. All drawn by
/// counter from `seed`; everything is rounded as a person writes it down.
std::vector<BitDrilled> forty_bits(unsigned long seed);

}  // namespace dullcast::shelf_maker
