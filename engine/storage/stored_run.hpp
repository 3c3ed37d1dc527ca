#pragma once

#include <optional>
#include <string>
#include <vector>

#include "engine/scenario/scenario.hpp"
#include "engine/simulation/outcome.hpp"
#include "engine/storage/forecast_notes.hpp"
#include "engine/storage/stored_file.hpp"

namespace dullcast::storage {

/// What a result file holds: who wrote it, the scenario's text, the bit as it was and all that the run left
/// behind. Values exactly as they were written; holes, layers, cutters and blades count from 0 again.
struct StoredRun {
  std::string path;  // the file it came from
  int format_major = 0, format_minor = 0;
  std::string program_version, program_commit;
  std::string title;
  std::string scenario_text;  // resolved YAML
  std::string bit_name, body;
  std::vector<std::string> kind_names, kind_grades;  // of each kind of cutter, as in layout.shapes
  scenario::BitBuild build;
  geometry::BitLayout layout;
  Eigen::ArrayXd starting_wear;         // m, one per cutter
  Eigen::ArrayXd starting_damage;       // 1, one per cutter
  Eigen::ArrayXd starting_chip_hazard;  // 1, one per cutter
  Eigen::ArrayXi starting_lost;         // 1 where a cutter is missing
  Eigen::ArrayXi starting_table_gone;   // 1 where its diamond table is missing
  Eigen::ArrayXi starting_chipped;      // 1 where its edge had chipped
  double starting_erosion = 0.0;        // m
  double starting_blade_wear = 0.0;     // m
  double starting_pad_wear = 0.0;       // m
  scenario::ReworkRules rules;
  simulation::RunOutcome outcome;
  std::vector<simulation::LifeEnd> band;  // low, central, high; empty when only the central run was made
  std::optional<ForecastNotes> notes;     // none then, nor in files of before format 1.4
};

/// What a bit starts with, from one record that has it (StoredRun, scenario::BitRecord) to another.
template <class From, class To>
void copy_start(const From& from, To& to) {
  to.starting_wear = from.starting_wear;
  to.starting_damage = from.starting_damage;
  to.starting_chip_hazard = from.starting_chip_hazard;
  to.starting_lost = from.starting_lost;
  to.starting_table_gone = from.starting_table_gone;
  to.starting_chipped = from.starting_chipped;
  to.starting_erosion = from.starting_erosion;
  to.starting_blade_wear = from.starting_blade_wear;
  to.starting_pad_wear = from.starting_pad_wear;
}

/// Reads a file that write_result wrote, now or in an earlier minor version of the format, wherever it comes
/// from (read_stored_file). What an earlier version did not store stays as a new value has it, per-cutter
/// arrays as zeros. Throws FileError, saying which it is and what to do: no such file, not an HDF5 file, not
/// a dullcast run, a newer format than this program knows (or a word that a newer one added), without a
/// checksum where `seal` requires one, or damaged (cut short, failed checksum, a dataset missing or of the
/// wrong kind or shape).
StoredRun read_result(const std::string& path, Seal seal = Seal::required);

/// The same of what such a file holds; `path` is the name for messages.
StoredRun result_of(const StoredGroup& file, const std::string& path);

}  // namespace dullcast::storage
