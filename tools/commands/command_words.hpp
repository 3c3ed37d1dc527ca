#pragma once

#include <string>
#include <vector>

#include "tools/commands/command_table.hpp"

/// What a command takes, as the command's own reader of words has it: the one source of its --help, its page
/// in the manual and what shells complete.
namespace dullcast::commands {

struct OptionWords {
  std::string name;      // "output", without dashes
  char letter = 0;       // 'o', or 0 for none
  std::string argument;  // "FILE"; empty for a switch
  std::string usual;     // what counts where it is not given, as text; empty for nothing and for what the
                         // machine decides
  std::string what;
};

struct CommandWords {
  std::string usage;  // lines of how it is called, an empty one, then paragraphs
  std::vector<OptionWords> options;
};

/// Asks the command. Throws std::logic_error for one that reads its words in another way than read_options.
CommandWords words_of(const Command& command);

/// The endings of the files that it takes, ".yaml" for instance, by the words behind its name; empty for a
/// command that takes none.
std::vector<std::string> endings_of(const Command& command);

}  // namespace dullcast::commands
