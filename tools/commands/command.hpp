#pragma once

#include <iostream>
#include <stdexcept>
#include <string>
#include <vector>

/// One command of the program. Each lives in its own file and reads the words behind its name.
namespace dullcast::commands {

/// How the program ends.
enum ExitCode : int {
  ended_well = 0,
  wrong_words = 2,  // the command line makes no sense
  wrong_input = 3,  // a scenario or an earlier result cannot be used
  failed = 4        // the run or the writing of its result failed
};

/// Thrown for a command line that makes no sense; what() is one sentence.
class WrongWords : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

int run_command(const std::vector<std::string>& words);
int check_command(const std::vector<std::string>& words);
int cooling_command(const std::vector<std::string>& words);
int doubts_command(const std::vector<std::string>& words);
int window_command(const std::vector<std::string>& words);
int sweep_command(const std::vector<std::string>& words);
int show_command(const std::vector<std::string>& words);
int compare_command(const std::vector<std::string>& words);
int next_command(const std::vector<std::string>& words);
int what_if_command(const std::vector<std::string>& words);
int why_command(const std::vector<std::string>& words);
int findings_command(const std::vector<std::string>& words);
int learn_command(const std::vector<std::string>& words);
int record_command(const std::vector<std::string>& words);
int shelf_command(const std::vector<std::string>& words);
int shop_command(const std::vector<std::string>& words);
int card_command(const std::vector<std::string>& words);
int lesson_command(const std::vector<std::string>& words);
int report_command(const std::vector<std::string>& words);
int seal_command(const std::vector<std::string>& words);

/// Name, version and commit, one line.
std::string version_line();
/// That, and how wide the engine's loops are on this machine: what --version prints.
std::string version_text();

/// Folder of the library of rocks, grades, fluids, bits: `given` when not empty, otherwise the environment
/// variable DULLCAST_LIBRARY, otherwise `library` beside the scenario or one folder up, otherwise the source
/// tree's.
std::string library_folder(const std::string& given, const std::string& scenario_file);

}  // namespace dullcast::commands
