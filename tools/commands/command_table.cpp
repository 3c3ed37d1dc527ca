#include "tools/commands/command_table.hpp"

#include "tools/commands/command.hpp"

namespace dullcast::commands {

namespace {

constexpr Command all_commands[] = {
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

}  // namespace

std::span<const Command> command_table() {
  return all_commands;
}

}  // namespace dullcast::commands
