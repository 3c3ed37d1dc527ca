#pragma once

#include <atomic>
#include <exception>
#include <functional>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"

namespace dullcast::simulation {

/// Told from time to time how far a run has come: holes drilled so far (with the fraction of the present one)
/// and holes asked for. Must not throw.
using Progress = std::function<void(double holes_drilled, int holes_asked)>;

/// Thrown by a run that was told to give up. It says nothing of the scenario.
class RunGivenUp : public std::exception {
 public:
  const char* what() const noexcept override { return "the run was told to give up"; }
};

/// Drills a scenario's column hole after hole until its last hole or its rule for stopping, stepping
/// temperature, wear and heat damage of every cutter with Boost odeint. Deterministic: the same scenario
/// gives the same bits. Before each hole cutters, body and bottom-hole fluid are at the fluid's inlet
/// temperature (a trip cools the bit). Throws std::runtime_error with hole and depth when the models or the
/// stepping fail.
/// Without rows the outcome's history is empty and nothing else differs, to the last bit. `give_up`, where
/// there is one, is looked at before every step; once it is set, RunGivenUp is thrown.
RunOutcome run(const scenario::Scenario& scenario, const Progress& progress = {}, Rows rows = Rows::kept,
               const std::atomic<bool>* give_up = nullptr);

}  // namespace dullcast::simulation
