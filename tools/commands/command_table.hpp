#pragma once

#include <span>
#include <string>
#include <vector>

namespace dullcast::commands {

/// One command: what main runs and every page of help is made from.
struct Command {
  const char* name;
  int (*run)(const std::vector<std::string>&);
  const char* words;  // behind the name
  const char* what;
};

/// All of them, in the order in which help tells them.
std::span<const Command> command_table();

}  // namespace dullcast::commands
