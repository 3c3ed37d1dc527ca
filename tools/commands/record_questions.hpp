#pragma once

#include <iosfwd>
#include <set>
#include <stdexcept>
#include <string>

#include "engine/input/record_draft.hpp"

namespace dullcast::commands {

/// Whoever answers has ended the input, or cannot be understood.
class NoMoreAnswers : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Asks for a record, one question at a time, each with an example and the words that are understood; every
/// answer is checked at once and asked for again where it cannot be used. An empty answer is: not known.
class RecordQuestions {
 public:
  RecordQuestions(std::istream& in, std::ostream& out, input::RecordDraft& draft)
      : in_(in), out_(out), draft_(draft) {}

  /// All questions but those in `answered`. Throws NoMoreAnswers when the input ends, an answer is longer
  /// than any, or twenty answers to one question cannot be used.
  void ask(const std::set<std::string>& answered);
  /// A question for yes or no. Throws as ask() does.
  bool yes(const std::string& question);

 private:
  std::string line();
  void ask_one(const std::string& key, const std::string& question);
  void ask_cutters();
  /// Gives an answer to the draft and tells what it has to say; false when it was not taken.
  bool take(const std::string& key, const std::string& text);
  std::istream& in_;
  std::ostream& out_;
  input::RecordDraft& draft_;
};

/// The record as it will stand in the shelf.
void print_record(std::ostream& out, const input::RecordDraft& draft);

}  // namespace dullcast::commands
