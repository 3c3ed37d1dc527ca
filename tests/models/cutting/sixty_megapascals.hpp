#pragma once

#include "models/cutting/cutting_force.hpp"

/// A rock for tests of forces; its numbers are invented.
namespace dullcast::cutting {

inline RockResistance sixty_megapascals() {
  RockResistance rock;
  rock.specific_energy = 60e6;
  rock.contact_strength = 90e6;
  rock.mobilisation_slope = 0.02;
  rock.flat_friction = 0.4;
  rock.drilling_efficiency = 0.8;
  return rock;
}

}  // namespace dullcast::cutting
