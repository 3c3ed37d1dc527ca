#pragma once

#include <vector>

#include "engine/analysis/forecast.hpp"
#include "engine/analysis/survival_without_flow.hpp"
#include "engine/storage/stored_run.hpp"

/// A forecast as results keep it, and back.
namespace dullcast::analysis {

/// What a result keeps of a forecast beside its central run and its band.
storage::ForecastNotes notes_of(const Forecast& forecast, const std::vector<Survival>& survival);

/// The forecast that a result holds, of its scenario. The ends of the band are only as whole as results keep
/// them: where rework fell due or how the run ended, and the hottest flat. A file without notes gives a
/// forecast of which it is not known what its band rests on.
Forecast forecast_of(const storage::StoredRun& run, const scenario::Scenario& scenario);

/// How its layers survive without flow, where it was asked. Throws FileError for a word that is not known and
/// for a layer that the scenario does not have.
std::vector<Survival> survival_of(const storage::StoredRun& run, const scenario::Scenario& scenario);

}  // namespace dullcast::analysis
