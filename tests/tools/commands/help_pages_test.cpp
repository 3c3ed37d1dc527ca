#include <gtest/gtest.h>

#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "tools/commands/command_table.hpp"
#include "tools/commands/program.hpp"

// The manual and what shells complete, held against what every command prints at --help.
namespace dullcast::commands {
namespace {

using testing::has;
using testing::Said;
using testing::say;
using testing::say_to;
using testing::Scratch;
using testing::word;

/// The options that a command's --help lists, with their dashes.
std::set<std::string> options_in_help(const std::string& command) {
  const Said said = say(command + " --help");
  EXPECT_EQ(said.code, 0) << command;
  std::set<std::string> options;
  std::istringstream lines(said.out);
  const std::regex option("^  (-([a-z]) \\[ )?(--[a-z-]+)");
  std::smatch found;
  for (std::string line; std::getline(lines, line);) {
    if (!std::regex_search(line, found, option)) continue;
    options.insert(found[3]);
    if (found[2].matched) options.insert("-" + found[2].str());
  }
  EXPECT_TRUE(options.count("--help") && options.count("-h")) << command;
  return options;
}

/// What bash completes after these words, by the program's own script.
std::set<std::string> completed(const Scratch& scratch, const std::string& words, int place) {
  const std::string script = scratch.write(
      "ask.bash", "source " + (scratch / "completion").string() + "\nCOMP_WORDS=(" + words +
                      ")\nCOMP_CWORD=" + std::to_string(place) + "\ncd " + scratch.path().string() +
                      "/files\n_dullcast\nprintf '%s\\n' \"${COMPREPLY[@]}\"\n");
  const Said said = say_to("/bin/bash", "--norc -eu " + word(script));
  EXPECT_EQ(said.code, 0) << said.err;
  std::set<std::string> answers;
  std::istringstream lines(said.out);
  for (std::string line; std::getline(lines, line);) answers.insert(line);
  return answers;
}

class HelpPages : public ::testing::Test {
 protected:
  static const std::map<std::string, std::set<std::string>>& options() {
    static const auto all = [] {
      std::map<std::string, std::set<std::string>> of;
      for (const Command& command : command_table()) of[command.name] = options_in_help(command.name);
      return of;
    }();
    return all;
  }
};

TEST_F(HelpPages, TheManualTellsEveryCommandAndEveryOption) {
  const std::string page = say("help --manual").out;
  EXPECT_GE(options().size(), 20u);
  for (const auto& [command, all] : options()) {
    const auto begin =
        page.find("\n.SS \"dullcast " + std::regex_replace(command, std::regex("-"), "\\-") + "\"\n");
    ASSERT_NE(begin, std::string::npos) << command;
    const auto next = page.find("\n.S", begin + 4);
    const std::string section = page.substr(begin, next - begin);
    for (const std::string& option : all) {
      const std::string shown = "\\fB" + std::regex_replace(option, std::regex("-"), "\\-") + "\\fR";
      EXPECT_TRUE(has(section, shown)) << "dullcast " << command << " " << option;
    }
    // And no other.
    const std::regex entry("\\\\fB(\\\\-\\\\-[a-z\\\\-]+)\\\\fR");
    for (auto found = std::sregex_iterator(section.begin(), section.end(), entry);
         found != std::sregex_iterator(); ++found)
      EXPECT_TRUE(all.count(std::regex_replace((*found)[1].str(), std::regex("\\\\"), ""))) << (*found)[1];
  }
}

TEST_F(HelpPages, BashCompletesEveryCommandAndExactlyItsOptions) {
  const Scratch scratch;
  scratch.write("completion", say("help --completion bash").out);
  std::filesystem::create_directory(scratch / "files");
  std::set<std::string> names = {"help", "--help", "--version"};
  for (const auto& [command, all] : options()) names.insert(command);
  EXPECT_EQ(completed(scratch, "dullcast ''", 1), names);
  EXPECT_EQ(completed(scratch, "dullcast wi", 1), std::set<std::string>{"window"});
  for (const auto& [command, all] : options()) {
    EXPECT_EQ(completed(scratch, "dullcast " + command + " -", 2), all) << command;
    if (all.count("--units")) {
      EXPECT_EQ(completed(scratch, "dullcast " + command + " --units ''", 3),
                (std::set<std::string>{"field", "si", "both"}));
    }
  }
}

TEST_F(HelpPages, BashCompletesTheFilesThatACommandTakes) {
  const Scratch scratch;
  scratch.write("completion", say("help --completion bash").out);
  std::filesystem::create_directories(scratch / "files/a folder");
  for (const char* file : {"a well.yaml", "a result.h5", "a shelf.csv", "a note.txt"})
    scratch.write(std::string("files/") + file, "");
  using Names = std::set<std::string>;
  EXPECT_EQ(completed(scratch, "dullcast run a", 2), (Names{"a well.yaml", "a folder"}));
  EXPECT_EQ(completed(scratch, "dullcast show a", 2), (Names{"a result.h5", "a folder"}));
  EXPECT_EQ(completed(scratch, "dullcast shelf a", 2), (Names{"a well.yaml", "a shelf.csv", "a folder"}));
  EXPECT_EQ(completed(scratch, "dullcast run -o a", 3),
            (Names{"a well.yaml", "a result.h5", "a shelf.csv", "a note.txt", "a folder"}));
}

TEST_F(HelpPages, ZshGetsEveryCommandAndOption) {
  const std::string script = say("help --completion zsh").out;
  EXPECT_TRUE(script.starts_with("#compdef dullcast\n"));
  for (const auto& [command, all] : options()) {
    const auto begin = script.find("\n  " + command + ")\n");
    ASSERT_NE(begin, std::string::npos) << command;
    const std::string section = script.substr(begin, script.find(";;", begin) - begin);
    for (const std::string& option : all) EXPECT_TRUE(has(section, option)) << command << " " << option;
  }
  const Said other = say("help --completion fish");
  EXPECT_EQ(other.code, 2);
  EXPECT_TRUE(has(other.err, "only for bash and zsh")) << other.err;
}

}  // namespace
}  // namespace dullcast::commands
