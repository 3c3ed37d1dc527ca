#include "tools/commands/command_words.hpp"

#include <stdexcept>

#include "tools/commands/options.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

namespace {

OptionWords words_of_option(const po::option_description& option) {
  OptionWords words;
  words.name = option.long_name();
  const std::string shortest = option.canonical_display_name(po::command_line_style::allow_dash_for_short);
  if (shortest.size() == 2 && shortest[0] == '-') words.letter = shortest[1];
  // "N (=2)": the library writes what counts otherwise behind the argument's name.
  words.argument = option.format_parameter();
  if (const auto begin = words.argument.find(" (="); begin != std::string::npos) {
    words.usual = words.argument.substr(begin + 3, words.argument.size() - begin - 4);
    words.argument.resize(begin);
  }
  if (words.name == "threads") words.usual.clear();
  words.what = option.description();
  return words;
}

}  // namespace

CommandWords words_of(const Command& command) {
  try {
    command.run({what_do_you_take});
  } catch (const WhatItTakes& answer) {
    CommandWords words;
    words.usage = answer.usage;
    for (const auto& option : answer.shown.options()) words.options.push_back(words_of_option(*option));
    return words;
  }
  throw std::logic_error(std::string("dullcast ") + command.name + " does not say what it takes");
}

std::vector<std::string> endings_of(const Command& command) {
  const std::string words = command.words;
  std::vector<std::string> endings;
  for (const char* ending : {".yaml", ".h5"}) {
    if (words.find(ending) != std::string::npos) endings.emplace_back(ending);
  }
  if (words.find("SHELF") != std::string::npos) endings = {".csv", ".yaml"};
  if (endings.empty() && !words.empty()) endings = {".yaml", ".h5", ".csv"};
  return endings;
}

}  // namespace dullcast::commands
