#include <algorithm>
#include <exception>
#include <new>
#include <stdexcept>

#include "engine/base/file_error.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/base/words.hpp"
#include "engine/input/problems.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/machine_limits.hpp"

namespace dullcast::commands {

namespace {

struct Command {
  const char* name;
  int (*run)(const std::vector<std::string>&);
  const char* words;  // behind the name
  const char* what;
};

constexpr Command commands[] = {
    {"run", run_command, "SCENARIO.yaml", "drill a scenario, write its result, print the forecast"},
    {"show", show_command, "RESULT.h5", "print a result's forecast again, in any units, without running"},
    {"report", report_command, "FILE...",
     "a page of results to look at, hand on and print: one HTML file, no network"},
    {"card", card_command, "FILE",
     "one printed page for the driller's cab: what to hold, what to watch for, when to pull"},
    {"what-if", what_if_command, "SCENARIO.yaml",
     "a page that tries settings, three side by side; it drills in the browser"},
    {"lesson", lesson_command, "",
     "a lesson for new drillers: why heat kills cutters; it drills in the browser"},
    {"compare", compare_command, "FILE FILE...",
     "what differs between results or scenarios, and what it changed"},
    {"check", check_command, "FILE...",
     "say what files are, and what is wrong or unwise in them; run nothing"},
    {"cooling", cooling_command, "SCENARIO.yaml",
     "what the flow does for its bit, and how little would keep it cool"},
    {"next", next_command, "SCENARIO.yaml",
     "run a used bit again, rework it or scrap it: its next hole by each choice"},
    {"doubts", doubts_command, "SCENARIO.yaml", "which uncertain numbers make its forecast uncertain"},
    {"window", window_command, "SCENARIO.yaml",
     "where its bit may be run: weight against speed, and which limit binds"},
    {"sweep", sweep_command, "PLAN.yaml", "run thousands of what-ifs overnight, safely"},
    {"findings", findings_command, "SWEEP.h5",
     "what the runs of a sweep mean: rework, best settings, what matters"},
    {"learn", learn_command, "SHELF",
     "what a shelf of inspected bits tells of rock and cutters, for forecasts to rest on"},
    {"record", record_command, "SHELF", "ask for the record of a bit that came back, and shelve it"},
    {"shelf", shelf_command, "SHELF", "what bits that came back were found like, beside their forecasts"},
    {"why", why_command, "SHELF",
     "why one of its bits came back as it did; without --bit, which lot is worse"},
    {"shop", shop_command, "PLAN.yaml",
     "rework before it arrives: bits that come in, benches, cutters, holes that wait"},
    {"seal", seal_command, "RESULT.h5", "a copy with a checksum of a file that another program changed"},
};

void print_help(std::ostream& out) {
  out << "dullcast: forecasts how hot the cutters of a PDC bit run, how fast they wear, and when rework is "
         "due.\n\n";
  for (const Command& command : commands) {
    std::string usage = std::string("  dullcast ") + command.name + " " + command.words;
    usage.resize(std::max<std::size_t>(usage.size() + 1, 34), ' ');
    out << usage << command.what << "\n";
  }
  out << "\n  dullcast help COMMAND           the options of a command, as does dullcast COMMAND --help\n"
         "  dullcast --version              version, commit, width of loops\n\n"
         "Nothing is written over unless --replace says so. --brief says it in a few lines. Units: --units "
         "field, si or "
         "both;\n"
         "the word in the variable DULLCAST_UNITS or in the file ~/.config/dullcast/units is your usual.\n\n"
         "Results are estimates. They replace neither inspection nor local codes nor a licensed driller's "
         "judgement.\n";
}

int dispatch(const std::vector<std::string>& words) {
  if (words.empty()) {
    print_help(std::cerr);
    return wrong_words;
  }
  const std::vector<std::string> rest(words.begin() + 1, words.end());
  if (words[0] == "--help" || words[0] == "-h") {
    print_help(std::cout);
    return ended_well;
  }
  if (words[0] == "--version") {
    std::cout << version_text();
    return ended_well;
  }
  if (words[0] == "help") {
    if (rest.empty()) {
      print_help(std::cout);
      return ended_well;
    }
    return dispatch({rest.front(), "--help"});
  }
  std::vector<std::string> known = {"help", "--help", "--version"};
  for (const Command& command : commands) {
    if (words[0] == command.name) return command.run(rest);
    known.emplace_back(command.name);
  }
  const std::string nearest = base::nearest_word(words[0], known);
  throw WrongWords("there is no command \"" + words[0] + "\"" +
                   (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
}

}  // namespace
}  // namespace dullcast::commands

int main(int count, char** words) {
  using namespace dullcast::commands;
  namespace base = dullcast::base;
  namespace input = dullcast::input;
  dullcast::commands::stand_the_machines_limits();
  try {
    const int code = dispatch(std::vector<std::string>(words + 1, words + count));
    std::cout.flush();
    if (std::cout) return code;
    // Full, or closed: whoever reads what was said would take a part for the whole.
    std::cerr << "dullcast: standard output took only a part of what there was to say.\n";
    return failed;
  } catch (const WrongWords& error) {
    const std::string said = base::plain_lines(error.what());
    std::cerr << "dullcast: " << said << (said.back() == '?' ? "" : ".") << " Try \"dullcast --help\".\n";
    return wrong_words;
  } catch (const input::ScenarioErrors& error) {
    for (const std::string& message : error.messages()) std::cerr << base::plain_lines(message) << "\n";
    return wrong_input;
  } catch (const base::FileError& error) {
    std::cerr << "dullcast: " << base::plain_lines(error.what()) << "\n";
    return failed;
  } catch (const std::invalid_argument& error) {
    std::cerr << base::plain_lines(error.what()) << "\n";
    return wrong_input;
  } catch (const std::bad_alloc&) {
    tell_no_memory();
    return failed;
  } catch (const std::exception& error) {
    std::cerr << "dullcast: " << base::plain_lines(error.what()) << "\n";
    return failed;
  }
}
