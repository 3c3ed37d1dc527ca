#pragma once

#include <string>

namespace dullcast::commands {

/// The program's page for man: what it is for, every command with its options, exit status, environment,
/// files. In the macros of man(7), made from the table of commands and what each command says that it takes.
std::string manual_page();

}  // namespace dullcast::commands
