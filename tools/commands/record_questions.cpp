#include "tools/commands/record_questions.hpp"

#include <algorithm>
#include <istream>
#include <ostream>

#include "engine/base/plain_text.hpp"
#include "engine/base/words.hpp"
#include "engine/input/library.hpp"

namespace dullcast::commands {
namespace {

constexpr std::size_t longest_answer = 20'000;
constexpr int most_tries = 20;

struct RecordQuestion {
  const char* key;
  const char* words;
};

// In the order in which a person with the bit before him knows it.
constexpr RecordQuestion questions[] = {
    {"bit", "Which bit? The name on its tag, such as K-17."},
    {"inspected", "On which day was it inspected? Year, month, day, such as 2031-04-17."},
    {"lot", "Of which lot are its cutters?"},
    {"holes", "How many holes did it drill, such as 6?"},
    {"drilled",
     "What did it drill, all holes together? Rocks from the surface down, such as shale 300 m; sandstone 400 "
     "ft."},
    {"weight_on_bit", "With what weight on bit, such as 4500 lbf?"},
    {"rotary_speed", "At what speed, such as 85 rpm?"},
    {"flow", "With what flow, such as 65 gal/min?"},
    {"inner_grade",
     "Dull grade of the inner cutters? A whole number from 0 (no wear) to 8 (none left), or at least 6."},
    {"outer_grade", "Dull grade of the outer cutters, likewise?"},
    {"cutters", ""},
    {"chipped", "How many cutters are chipped, such as 0?"},
    {"lost", "How many cutters are lost, such as 0?"},
    {"heat_checked", "How many cutters are cracked by heat, such as 0?"},
    {"gauge_loss", "How much is it under gauge, such as 1/16 in or 0 mm?"},
    {"reason_pulled", "Why was it pulled? A few words, such as total depth."},
    {"pockets", "What are its pockets like? A few words."},
    {"body", "What is its body like? A few words."},
    {"repairs", "What was repaired? Each in a few words, with ; between."},
    {"photos", "Which pictures were taken? Names of files, with ; between."},
    {"note", "Anything else?"}};

}  // namespace

std::string RecordQuestions::line() {
  out_ << "> " << std::flush;
  std::string text;
  for (;;) {
    const int letter = in_.get();
    if (letter == std::istream::traits_type::eof()) {
      if (!text.empty()) break;
      out_ << "\n";
      throw NoMoreAnswers("the input ended before the record was whole: nothing was written");
    }
    if (letter == '\n') break;
    if (text.size() == longest_answer)
      throw NoMoreAnswers("an answer is longer than " + std::to_string(longest_answer) +
                          " bytes: nothing was written");
    text += static_cast<char>(letter);
  }
  const auto first = text.find_first_not_of(" \t\r"), last = text.find_last_not_of(" \t\r");
  return first == std::string::npos ? std::string() : text.substr(first, last - first + 1);
}

bool RecordQuestions::take(const std::string& key, const std::string& text) {
  const input::RecordDraft::Remarks remarks = draft_.answer(key, text);
  for (const std::string& fault : remarks.faults) out_ << "  " << base::plain(fault) << "\n";
  for (const std::string& unwise : remarks.unwise) out_ << "  " << base::plain(unwise) << " [unwise]\n";
  return remarks.faults.empty();
}

void RecordQuestions::ask_one(const std::string& key, const std::string& question) {
  out_ << question << "\n";
  for (int tries = 0; tries < most_tries; ++tries) {
    std::string text = line();
    if (key == "scenario" && text.empty()) text = draft_.usual_scenario();
    if (take(key, text)) return;
  }
  throw NoMoreAnswers(std::to_string(most_tries) + " answers to \"" + key +
                      "\" could not be used: nothing was written");
}

void RecordQuestions::ask_cutters() {
  const auto count = draft_.base()->scenario.bit.layout.count();
  const std::string many = std::to_string(count);
  out_
      << "What was found on its cutters? All " << many
      << " from the axis outward in one line with ; between, or the word one, to be asked one by one.\n"
         "Of each: its worn height, such as 0.8 mm, at least 2 mm or flat 6 mm (the flat's length across the "
         "face); or new, lost,\n"
         "table gone, chipped, chipped 0.5 mm, heat-checked, heat-checked 0.8 mm, not measured.\n";
  for (int tries = 0; tries < most_tries; ++tries) {
    const std::string text = line();
    if (text != "one" && text != "One") {
      if (take("cutters", text)) return;
      continue;
    }
    std::string all;
    for (Eigen::Index i = 0; i < count; ++i) {
      const std::string number = std::to_string(i + 1);
      for (int again = 0;; ++again) {
        if (again == most_tries)
          throw NoMoreAnswers(std::to_string(most_tries) + " answers to cutter " + number +
                              " could not be used: nothing was written");
        out_ << "Cutter " << number << " of " << many << "\n";
        const std::string one = line();
        std::string padded = all + (one.empty() ? "not measured" : one);
        const std::string so_far = padded;
        for (Eigen::Index k = i + 1; k < count; ++k) padded += "; not measured";
        if (!take("cutters", padded)) continue;
        all = so_far + "; ";
        break;
      }
    }
    return;
  }
  throw NoMoreAnswers(std::to_string(most_tries) +
                      " answers to \"cutters\" could not be used: nothing was written");
}

void RecordQuestions::ask(const std::set<std::string>& answered) {
  if (answered.count("scenario") == 0)
    ask_one("scenario", "Which scenario is its run made from? A file beside the shelf" +
                            (draft_.usual_scenario().empty()
                                 ? std::string(", such as field.yaml.")
                                 : "; empty for " + base::plain(draft_.usual_scenario()) + "."));
  out_ << "An empty answer is: not known.\n";
  for (const RecordQuestion& question : questions) {
    const std::string key = question.key;
    if (answered.count(key) > 0) continue;
    // What is marked cutter by cutter is counted already.
    const bool counted = key == "chipped" || key == "lost" || key == "heat_checked";
    const auto said = draft_.answers();
    const bool by_cutter = std::any_of(said.begin(), said.end(),
                                       [](const input::RecordAnswer& one) { return one.key == "cutters"; });
    if (counted && by_cutter) continue;
    if (key == "cutters") {
      ask_cutters();
    } else if (key == "lot") {
      ask_one(key, std::string(question.words) + " One of " +
                       base::one_of(input::names_of(draft_.base()->library.lots)) + "; empty for " +
                       draft_.base()->scenario.bit.lot.name + ".");
    } else {
      ask_one(key, question.words);
    }
  }
}

bool RecordQuestions::yes(const std::string& question) {
  for (int tries = 0; tries < most_tries; ++tries) {
    out_ << question << " (yes or no)\n";
    const std::string text = line();
    if (text == "yes" || text == "y" || text == "Yes") return true;
    if (text == "no" || text == "n" || text == "No") return false;
  }
  throw NoMoreAnswers("neither yes nor no: nothing was written");
}

void print_record(std::ostream& out, const input::RecordDraft& draft) {
  out << "The record\n";
  for (const input::RecordAnswer& one : draft.answers()) {
    std::string label = "  " + one.key;
    label.resize(std::max<std::size_t>(label.size() + 1, 20), ' ');
    out << label << base::plain(one.text) << "\n";
  }
}

}  // namespace dullcast::commands
