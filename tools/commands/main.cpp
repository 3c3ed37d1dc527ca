#include <algorithm>
#include <exception>
#include <new>
#include <stdexcept>

#include "engine/base/file_error.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/base/words.hpp"
#include "engine/input/problems.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/command_table.hpp"
#include "tools/commands/completion_script.hpp"
#include "tools/commands/machine_limits.hpp"
#include "tools/commands/manual_page.hpp"

namespace dullcast::commands {

namespace {

void print_help(std::ostream& out) {
  out << "dullcast: forecasts how hot the cutters of a PDC bit run, how fast they wear, and when rework is "
         "due.\n\n";
  for (const Command& command : command_table()) {
    std::string usage = std::string("  dullcast ") + command.name + " " + command.words;
    usage.resize(std::max<std::size_t>(usage.size() + 1, 34), ' ');
    out << usage << command.what << "\n";
  }
  out << "\n  dullcast help COMMAND           the options of a command, as does dullcast COMMAND --help\n"
         "  dullcast help --manual          all of that as a page for man\n"
         "  dullcast help --completion bash names and options for the shell's Tab key; or zsh\n"
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
    if (rest.size() == 1 && rest[0] == "--manual") {
      std::cout << manual_page();
      return ended_well;
    }
    if (rest[0] == "--completion") {
      if (rest.size() != 2) throw WrongWords("--completion is of one shell, bash or zsh");
      std::cout << completion_script(rest[1]);
      return ended_well;
    }
    return dispatch({rest.front(), "--help"});
  }
  std::vector<std::string> known = {"help", "--help", "--version"};
  for (const Command& command : command_table()) {
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
