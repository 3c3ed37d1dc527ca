#include <exception>
#include <iomanip>
#include <iostream>
#include <vector>

#include "engine/input/scenario_reader.hpp"
#include "engine/simulation/run.hpp"

// Drills one scenario and prints a line for each layer of each hole: the hottest flat and the wear it cost.
int main(int count, char** words) {
  if (count != 2) {
    std::cerr << "drill-a-scenario: name one scenario, a YAML file\n";
    return 2;
  }
  try {
    std::vector<dullcast::input::Warning> warnings;
    const dullcast::scenario::Scenario scenario =
        dullcast::input::read_scenario(words[1], LIBRARY_FOLDER, {}, warnings);
    for (const dullcast::input::Warning& warning : warnings) std::cerr << warning.message() << "\n";

    // Everything is in SI: metres, seconds, kelvin.
    const dullcast::simulation::RunOutcome outcome = dullcast::simulation::run(scenario);
    std::cout
        << "hole  rock            from, m    to, m  progress, m/h  hottest flat, degC  greatest wear, mm\n"
        << std::fixed;
    for (const auto& layer : outcome.passages) {
      std::cout << std::setw(4) << layer.hole + 1 << "  " << std::left << std::setw(14) << layer.rock
                << std::right << std::setprecision(2) << std::setw(9) << layer.top << std::setw(9)
                << layer.bottom << std::setprecision(1) << std::setw(15)
                << layer.mean_rate_of_penetration * 3600.0 << std::setw(20) << layer.hottest_flat - 273.15
                << std::setprecision(3) << std::setw(19) << layer.greatest_wear_gain * 1e3 << "\n";
    }
    std::cout << (outcome.rework_due ? "Rework fell due.\n" : "Rework did not fall due.\n");
    return 0;
  } catch (const std::exception& error) {
    std::cerr << error.what() << "\n";
    return 1;
  }
}
