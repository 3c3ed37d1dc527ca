#pragma once

#include <vector>

#include "tools/heat_reference/random_cases.hpp"

namespace dullcast::heat_reference {

/// The contact as the engine would hand it to the network: load-bearing area and width.
thermal::ContactShape contact_of(const ComparedCase& of);

/// Resistance of the case by the engine's network, K/W; a chip's contact with its own spot factor.
double network_resistance(const ComparedCase& of);

/// Rise of the contact by the engine's network at `times`, from rest through the stages: its linear equations
/// solved exactly by eigenvectors, so that no stepping error is in it.
std::vector<double> network_transient(const ComparedCase& of, const std::vector<Stage>& stages,
                                      const std::vector<double>& times);

/// The named transients that a cutter goes through, lengths in keeping with the case: heat coming on and
/// staying; a pulse of 0.2 s; pump stopped under heat for 20 s and started again.
struct NamedTransient {
  const char* name;
  std::vector<Stage> stages;
  std::vector<double> times;
};
std::vector<NamedTransient> usual_transients();

/// Network against 3-D reference over one transient: the worst difference over the peak of the 3-D rise.
struct TransientError {
  double worst = 0.0;  // 1, signed
  double at = 0.0;     // s
};
TransientError transient_error(const ComparedCase& of, const HeatedCutter& reference,
                               const NamedTransient& through, int steps_per_doubling = 4);

}  // namespace dullcast::heat_reference
