#pragma once

#include <map>
#include <memory>
#include <set>

#include "engine/input/bit_record_reader.hpp"
#include "engine/input/scenario_reader.hpp"
#include "engine/input/shelf_writer.hpp"

namespace dullcast::input {

/// A record on its way into a shelf, answer by answer, each checked as it comes; nothing is written before
/// write().
class RecordDraft {
 public:
  /// Reads the shelf, or begins a new one where there is no such file, whose name then ends in .csv, .yaml or
  /// .yml. Throws ScenarioErrors for a shelf that cannot be used. `reader` must outlive the draft.
  RecordDraft(const ScenarioReader& reader, std::string shelf_file);

  /// Whether there is no such file yet.
  bool is_new() const { return new_; }
  /// How many records the shelf has.
  std::size_t records() const { return records_; }
  /// The scenario of the shelf's last record, as a record would name it; empty for none.
  const std::string& usual_scenario() const { return usual_scenario_; }
  /// What records are held to once `scenario` is answered; null before.
  const RecordBase* base() const { return base_.get(); }

  /// What is to be said of an answer: faults, with which it is not taken, and what is unwise.
  struct Remarks {
    std::vector<std::string> faults, unwise;
  };
  /// Takes an answer, in place of an earlier one to the same key; an empty one says nothing and is always
  /// taken but for `bit` and `scenario`, which must be said. `scenario` comes first.
  Remarks answer(const std::string& key, const std::string& text);

  /// All answers that say something, in the order of record_keys().
  std::vector<RecordAnswer> answers() const;

  /// Puts the record into the file: written aside and renamed, so that the old file is never lost. Throws
  /// ScenarioErrors when the shelf with the record could not be read, or changed meanwhile; FileError when it
  /// cannot be written.
  void write() const;

 private:
  Remarks answer_scenario(const std::string& text);
  const ScenarioReader& reader_;
  std::string file_;
  std::string read_, text_;  // the shelf as it was, and what the record is added to
  bool new_ = false;
  std::size_t records_ = 0;
  std::string usual_scenario_;
  std::set<std::pair<std::string, std::string>> met_;  // bits and days of the shelf
  std::map<std::string, std::string> answers_;
  std::unique_ptr<RecordBase> base_;
};

}  // namespace dullcast::input
