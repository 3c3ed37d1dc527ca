#pragma once

#include <cstdint>
#include <functional>
#include <iosfwd>
#include <string>
#include <vector>

#include "tools/heat_reference/comparison.hpp"

namespace dullcast::proofs {

/// One random cutter in steady heat: network against 3-D.
struct SteadyLine {
  std::string contact;  // "worn flat", "land", "chip on the face"
  heat_reference::ComparedCase of;
  double reference = 0.0, network = 0.0;  // K/W
  double error() const { return network / reference - 1.0; }
};

/// One random cutter through one transient.
struct TransientLine {
  std::string contact, through;
  heat_reference::TransientError error;
};

struct HeatProof {
  std::vector<SteadyLine> steady;
  std::vector<TransientLine> transients;
};

/// How many random cases of which seed. The network was fitted to seed 7.
struct HeatCases {
  std::uint64_t seed = 11;
  int steady = 200;    // worn flats; a third as many lands and chips each
  int transients = 8;  // cutters, each through every usual transient; every fourth on a land
};

/// Solves them all; progress(done, of) after each.
HeatProof prove_heat(const HeatCases& cases, const std::function<void(int, int)>& progress);

/// The table: errors by contact and convection, and by transient; true when 10 % and 15 % of the peak rise
/// hold.
bool print_heat_proof(std::ostream& out, const HeatProof& proof);

/// The same for the model page, in Markdown.
std::string heat_page(const HeatCases& cases, const HeatProof& proof);

/// Every line as comma-separated values, for the figure.
void write_steady_csv(std::ostream& out, const HeatProof& proof);
void write_transient_csv(std::ostream& out, const HeatProof& proof);

}  // namespace dullcast::proofs
