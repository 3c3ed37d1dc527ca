#pragma once

#include <Eigen/Core>
#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"
#include "engine/storage/sweep_part.hpp"

namespace dullcast::sweep {

/// The outcome columns of every sweep, in their order: name, unit, meaning, words. See sweep_table.hpp.
const std::vector<storage::SweepColumn>& outcome_columns();

/// Where a column of outcomes stands among them. Throws std::out_of_range for no such name.
Eigen::Index outcome_column(const std::string& name);

/// What a run came to, one value per outcome column.
Eigen::ArrayXd outcome_values(const scenario::Scenario& scenario, const simulation::RunOutcome& outcome);

/// The same of a case that failed: `failed` is 1, all else NaN.
Eigen::ArrayXd outcome_of_failure();

/// What the thinned course of a case holds.
const std::vector<storage::SweepColumn>& history_columns();

/// The recorded rows nearest below `rows` even steps of footage, from the first to the last; a run with fewer
/// rows repeats them. A run without any gives NaN.
storage::ThinHistory thin_history(long case_number, const simulation::RunOutcome& outcome, int rows);

}  // namespace dullcast::sweep
