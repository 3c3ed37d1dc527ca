#pragma once

#include <string>

namespace dullcast::commands {

/// A script that lets `shell` (bash or zsh) complete commands, options, the words of --units, and names of
/// files that a command takes. Made from the table of commands and what each says that it takes. Throws
/// WrongWords for another shell.
std::string completion_script(const std::string& shell);

}  // namespace dullcast::commands
