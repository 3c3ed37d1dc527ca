#pragma once

#include <memory>
#include <string>

namespace dullcast::page_engine {

/// What a page asks of the engine, and what the engine answers; both are texts of JSON, so that one form
/// serves the engine in a browser and the program alike. One page has one of these; one thread at a time.
///
/// A request is an object with `ask`:
///   open      library: {folder, files: {name: text}}; to be asked first. Answers {ok}.
///   check     reads a scenario: {ok, warnings, resolved}. resolved is its text with every default written
///             out (input::resolved_text), title its name.
///   run       drills it: {ok, warnings, view} (run_view). With `exact: true` numbers have all their digits.
///   forecast  the same with its band, which takes some hundred runs or so.
///   card      a forecast, and what a card for the driller's cab shows: {ok, warnings, view, card}.
///   change    {ok, text}: the scenario's text with the sets written into it (input::text_with_sets).
/// All but open take
///   scenario  the text of a scenario
///   file      its name for messages; "scenario.yaml" where it is left out
///   sets      ["key=value"] changes of it, as --set
///   units     "field" (as where it is left out), "si" or "both": how the page begins
///   rows      the most rows of the history to show (300 where it is left out)
/// What cannot be done is answered {ok: false, problems: [TEXT]}, each problem with its place.
class PageAnswers {
 public:
  PageAnswers();
  ~PageAnswers();

  /// Never throws but std::bad_alloc: what is wrong with a request or a scenario is in the answer.
  std::string answer(const std::string& request);

 private:
  struct Opened;
  std::unique_ptr<Opened> opened_;  // null before the library was opened
};

}  // namespace dullcast::page_engine
