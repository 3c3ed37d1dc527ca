#pragma once

#include <vector>

#include "tools/proofs/lab_proof.hpp"
#include "tools/proofs/line.hpp"

/// The parts of `proofs measurements`. Each computes everything when called.
namespace dullcast::proofs {

/// Published trends and thresholds of cutter temperature, force, wear and chipping. Adds curves.
std::vector<Section> published_trends(const scenario::ModelNumbers& numbers, std::vector<Curve>& curves);

/// Published values of the parts: conduction, convection, boiling, steam, settling, nozzles, stress, money.
std::vector<Section> published_values();

/// The trade's rules of thumb (common practice), as runs of an invented bit. Adds curves.
std::vector<Section> rules_of_thumb(std::vector<Curve>& curves);

}  // namespace dullcast::proofs
