#include <algorithm>

#include "engine/base/plain_text.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/record_questions.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

/// Gives the draft what --answer says; returns the keys. Throws ScenarioErrors for answers that cannot be
/// used.
std::set<std::string> answer_first(input::RecordDraft& draft, const std::vector<std::string>& given) {
  std::vector<std::pair<std::string, std::string>> pairs;
  for (const std::string& one : given) {
    const auto equals = one.find('=');
    if (equals == std::string::npos || equals == 0)
      throw WrongWords("--answer wants KEY=TEXT, such as \"flow=65 gal/min\", not \"" + one + "\"");
    pairs.emplace_back(one.substr(0, equals), one.substr(equals + 1));
  }
  // Everything else is held to the scenario.
  std::stable_partition(pairs.begin(), pairs.end(),
                        [](const auto& pair) { return pair.first == "scenario"; });
  std::set<std::string> keys;
  std::vector<std::string> faults;
  for (const auto& [key, text] : pairs) {
    if (!draft.base() && key != "scenario" && !draft.usual_scenario().empty())
      draft.answer("scenario", draft.usual_scenario());
    if (!keys.insert(key).second) faults.push_back("--answer " + key + ": is given twice; keep one of them");
    for (const std::string& fault : draft.answer(key, text).faults)
      faults.push_back("--answer " + key + ": " + fault);
  }
  if (draft.base()) keys.insert("scenario");
  if (!faults.empty()) throw input::ScenarioErrors(faults);
  return keys;
}

}  // namespace

int record_command(const std::vector<std::string>& words) {
  po::options_description shown("Options");
  shown.add_options()("answer", po::value<std::vector<std::string>>()->value_name("KEY=TEXT"),
                      "answer a question before it is asked, e.g. \"flow=65 gal/min\"; may be given again")(
      "no-questions", "ask nothing, not even whether to write: what --answer does not say is not known")(
      "brief", "do not print the record before it is written")(
      "library", po::value<std::string>()->default_value("")->value_name("FOLDER"),
      "folder of rocks, grades, lots, fluids, bodies, bits and model numbers");
  const ReadOptions read = read_options(
      words,
      "dullcast record SHELF [options]\n\n"
      "Asks for the record of a bit that came back, one question at a time, and adds it to a shelf, which is "
      "made where there is\n"
      "none: a table (.csv) that a spreadsheet opens, or YAML. What the shelf held stays as it is.\n"
      "Ends with 0 when done or told not to write, 2 for wrong options, 3 for a shelf or answers that cannot "
      "be used and when\n"
      "the input ends, 4 when the shelf cannot be written.\n",
      shown, "shelf", 1);
  if (read.finished) return ended_well;
  const std::string file = named_file(read, "shelf", "shelf to add a record to");
  const auto given = read.values.count("answer") ? read.values["answer"].as<std::vector<std::string>>()
                                                 : std::vector<std::string>{};
  const input::ScenarioReader reader(library_folder(read.values["library"].as<std::string>(), file));
  input::RecordDraft draft(reader, file);
  const std::set<std::string> answered = answer_first(draft, given);
  const bool silent = read.values.count("no-questions") > 0;
  if (silent && (answered.count("bit") == 0 || answered.count("scenario") == 0))
    throw WrongWords("without questions --answer must say bit=NAME and, for the first record, scenario=FILE");
  RecordQuestions questions(std::cin, std::cout, draft);
  try {
    if (!silent) {
      std::cout << "A record for " << base::plain(file)
                << (draft.is_new() ? ", a new shelf" : ", which has " + std::to_string(draft.records()))
                << ".\n";
      questions.ask(answered);
    }
    if (read.values.count("brief") == 0) print_record(std::cout, draft);
    if (!silent && !questions.yes("Write it?")) {
      std::cout << "Nothing was written.\n";
      return ended_well;
    }
  } catch (const NoMoreAnswers& ended) {
    std::cout.flush();
    std::cerr << "dullcast: " << ended.what() << ".\n";
    return wrong_input;
  }
  draft.write();
  std::cout << "Written to " << base::plain(file) << ", which has " << draft.records() + 1 << " now.\n";
  return ended_well;
}

}  // namespace dullcast::commands
