#include <cstdlib>
#include <exception>
#include <filesystem>
#include <stdexcept>

#include "engine/base/file_error.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/base/program_version.hpp"
#include "engine/base/words.hpp"
#include "engine/input/problems.hpp"
#include "tools/commands/command.hpp"

namespace dullcast::commands {

std::string version_line() {
  return "dullcast " + base::program_version() + " (" + base::program_commit() + ")";
}

std::string library_folder(const std::string& given, const std::string& scenario_file) {
  namespace fs = std::filesystem;
  if (!given.empty()) return given;
  if (const char* from_environment = std::getenv("DULLCAST_LIBRARY")) return from_environment;
  const fs::path beside = fs::absolute(scenario_file).parent_path();
  for (const fs::path& folder : {beside / "library", beside.parent_path() / "library"}) {
    if (fs::exists(folder / "rocks.yaml")) return folder.string();
  }
  // Beside an installed program.
  std::error_code none;
  const fs::path program = fs::read_symlink("/proc/self/exe", none);
  const fs::path installed = program.parent_path().parent_path() / DULLCAST_INSTALLED_LIBRARY;
  if (!none && fs::exists(installed / "rocks.yaml", none)) return installed.string();
  return DULLCAST_SOURCE_LIBRARY;
}

namespace {

constexpr const char* help =
    "dullcast: forecasts how hot the cutters of a PDC bit run, how fast they wear, and when rework is due.\n"
    "\n"
    "  dullcast run SCENARIO.yaml     drill a scenario, write its result, print the forecast\n"
    "  dullcast check FILE.yaml...    say what is wrong or unwise in scenarios, run nothing\n"
    "  dullcast cooling SCENARIO.yaml what the flow does for its bit, and how little would keep it cool\n"
    "  dullcast doubts SCENARIO.yaml  which uncertain numbers make its forecast uncertain\n"
    "  dullcast window SCENARIO.yaml  where its bit may be run: weight against speed, and which limit binds\n"
    "  dullcast sweep PLAN.yaml       run thousands of what-ifs overnight, safely\n"
    "  dullcast findings SWEEP.h5     what the runs of a sweep mean: rework, best settings, what matters\n"
    "\n"
    "  dullcast COMMAND --help        the options of a command\n"
    "  dullcast --version             version and commit\n"
    "\n"
    "Results are estimates. They replace neither inspection nor local codes nor a licensed driller's "
    "judgement.\n";

int dispatch(const std::vector<std::string>& words) {
  if (words.empty()) {
    std::cerr << help;
    return wrong_words;
  }
  const std::vector<std::string> rest(words.begin() + 1, words.end());
  if (words[0] == "--help" || words[0] == "-h") {
    std::cout << help;
    return ended_well;
  }
  if (words[0] == "--version") {
    std::cout << version_line() << "\n";
    return ended_well;
  }
  if (words[0] == "run") return run_command(rest);
  if (words[0] == "check") return check_command(rest);
  if (words[0] == "cooling") return cooling_command(rest);
  if (words[0] == "doubts") return doubts_command(rest);
  if (words[0] == "window") return window_command(rest);
  if (words[0] == "sweep") return sweep_command(rest);
  if (words[0] == "findings") return findings_command(rest);
  const std::string nearest = base::nearest_word(
      words[0], {"run", "check", "cooling", "doubts", "window", "sweep", "findings", "--help", "--version"});
  throw WrongWords("there is no command \"" + words[0] + "\"" +
                   (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
}

}  // namespace
}  // namespace dullcast::commands

int main(int count, char** words) {
  using namespace dullcast::commands;
  namespace base = dullcast::base;
  namespace input = dullcast::input;
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
  } catch (const std::exception& error) {
    std::cerr << "dullcast: " << base::plain_lines(error.what()) << "\n";
    return failed;
  }
}
