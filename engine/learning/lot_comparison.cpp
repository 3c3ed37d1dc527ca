#include "engine/learning/lot_comparison.hpp"

#include <algorithm>
#include <cmath>
#include <mutex>
#include <optional>

#include "engine/base/threads.hpp"
#include "engine/learning/reading_likelihood.hpp"

namespace dullcast::learning {
namespace {

/// Standard deviation of ln(strength) from cutter to cutter of a sound lot, as the library has it [asm].
constexpr double sound_spread = 0.15;

/// A run of the record with a lot as it should be.
scenario::Scenario with_sound_lot(scenario::Scenario run) {
  for (scenario::Quantity* share :
       {&run.bit.lot.edge_share, &run.bit.lot.bond_share, &run.bit.lot.braze_share})
    share->central = 1.0;
  run.bit.lot.strength_spread.central = sound_spread;
  return run;
}

/// Adds the cutters of one kind of breakage; whether the record tells of it at all.
template <class Seen>
bool count(const scenario::InspectedBit& found, const std::optional<int>& counted,
           const Eigen::ArrayXd& chance, bool lost_tell, const Seen& seen, statistics::CountedRate& rate) {
  if (counted) {
    rate.seen += *counted;
    rate.expected += chance.sum();
    return true;
  }
  if (found.cutters.empty() || !found.breakage_noted) return false;
  for (std::size_t k = 0; k < found.cutters.size(); ++k) {
    const scenario::CutterSeen& cutter = found.cutters[k];
    if (cutter.renewed || (!lost_tell && (cutter.lost || cutter.table_gone))) continue;
    rate.seen += seen(cutter) ? 1 : 0;
    rate.expected += chance(static_cast<Eigen::Index>(k));
  }
  return true;
}

}  // namespace

std::vector<LotRecordSeen> lots_of(const std::vector<scenario::ShelvedBit>& shelf, int threads,
                                   const RunsTold& told) {
  std::vector<PredictedBit> bits(shelf.size());
  std::mutex telling;
  double done = 0.0;
  base::parallel_for(static_cast<int>(shelf.size()), threads, [&](int k) {
    bits[static_cast<std::size_t>(k)] = predict(with_sound_lot(shelf[static_cast<std::size_t>(k)].run));
    const std::lock_guard<std::mutex> lock(telling);
    if (told) told(++done, static_cast<double>(shelf.size()));
  });
  std::vector<LotRecordSeen> lots;
  for (std::size_t r = 0; r < shelf.size(); ++r) {
    const scenario::InspectedBit& found = shelf[r].found;
    const std::string name = found.lot.empty() ? shelf[r].run.bit.lot.name : found.lot;
    auto lot =
        std::find_if(lots.begin(), lots.end(), [&](const LotRecordSeen& one) { return one.lot == name; });
    if (lot == lots.end()) {
      lots.push_back({name, 0, {}, {}});
      lot = lots.end() - 1;
    }
    const PredictedBit& bit = bits[r];
    const Eigen::ArrayXd chipped = chance_of_mark(bit, chip_hazard, {}),
                         gone = chance_of_mark(bit, pocket_load, {});
    const bool chips = count(
        found, found.chipped, chipped, false, [](const scenario::CutterSeen& one) { return one.chipped; },
        lot->chips);
    const bool lost = count(
        found, found.lost, gone, true, [](const scenario::CutterSeen& one) { return one.lost; }, lot->lost);
    lot->bits += chips || lost ? 1 : 0;
  }
  return lots;
}

}  // namespace dullcast::learning
