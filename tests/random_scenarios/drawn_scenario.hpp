#pragma once

#include <cstdint>
#include <string>

#include "engine/input/scenario_reader.hpp"

namespace dullcast::random_scenarios {

/// The text of a scenario thrown together at random over what the reader allows: bits from 20 mm to 2 m, of
/// one to a hundred cutters, new or used up; water, muds and air from a standstill to plenty; 1 to 200 layers
/// of any rock, with numbers of its own; mishaps anywhere; every rule and setting. Mostly few cutters, layers
/// and metres, so that most take some milliseconds to drill. The same seed gives the same text on every
/// machine. Some do not hold together, which the reader tells.
std::string drawn_text(std::int64_t seed, int attempt);

/// A drawn scenario that the reader takes, and its text.
struct DrawnScenario {
  std::string text;
  scenario::Scenario scenario;
  int refused = 0;  // texts of this seed before it
};

/// The first of a seed's texts that can be read. Throws std::runtime_error, with the reader's first words,
/// when none of forty can.
DrawnScenario drawn_scenario(const input::ScenarioReader& reader, std::int64_t seed);

}  // namespace dullcast::random_scenarios
