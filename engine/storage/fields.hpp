#pragma once

#include <Eigen/Core>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"
#include "engine/storage/forecast_notes.hpp"

/// What the datasets of a result file are called, in which unit and what they mean: stated once, used by the
/// writer and by the reader.
namespace dullcast::storage::result_format {

/// The word in the root attribute `file_type`.
inline constexpr const char* file_type = "dullcast run";

/// Version of the format. A reader reads any minor version of its own major version; the minor number rises
/// when something is added, the major number when something is renamed, removed or means something else.
/// results/README.md records each change.
inline constexpr int major_version = 1;
inline constexpr int minor_version = 5;

template <class Row>
using Member = std::variant<double Row::*, int Row::*, long Row::*, std::string Row::*,
                            std::optional<double> Row::*, Eigen::ArrayXd Row::*, Eigen::ArrayXi Row::*>;

/// Added to numbers that the program counts from 0, since files count from 1.
inline constexpr int counted_from_one = 1;

/// One dataset: a member of Row. Arrays have one entry per cutter; an optional that is not there is a NaN.
template <class Row>
struct Field {
  const char* name;
  const char* units;    // as UDUNITS reads it; text has none
  const char* meaning;  // the dataset's long_name
  Member<Row> member;
  int added_in_file = 0;
  int first_minor = 0;  // minor version that brought it; a file of an earlier one may lack it
};

template <class Row>
using Fields = std::vector<Field<Row>>;

/// `earlier` followed by the fields that minor version `minor` added.
template <class Row>
Fields<Row> since_minor(int minor, Fields<Row> earlier, Fields<Row> added) {
  for (Field<Row>& field : added) field.first_minor = minor;
  earlier.insert(earlier.end(), added.begin(), added.end());
  return earlier;
}

Fields<simulation::HistoryRow> history_fields();
Fields<simulation::LayerPassage> layer_fields();
Fields<simulation::HoleSummary> hole_fields();
Fields<simulation::Event> event_fields();
Fields<simulation::RunOutcome> outcome_fields();
Fields<simulation::BitCondition> condition_fields();
Fields<simulation::Milestone> milestone_fields();
Fields<simulation::RuleUse> rule_fields();
Fields<simulation::HottestMoment> hottest_fields();
Fields<simulation::LifeEnd> life_fields();
Fields<ForecastNotes> notes_fields();
Fields<NumberShare> share_fields();
Fields<LayerSurvival> survival_fields();

/// Every kind of event and every way a run ends, for finding the one that a file names.
const std::vector<simulation::EventKind>& all_event_kinds();
const std::vector<simulation::EndedBy>& all_ends();

}  // namespace dullcast::storage::result_format
