#include "tools/commands/completion_script.hpp"

#include <sstream>

#include "tools/commands/command.hpp"
#include "tools/commands/command_words.hpp"

namespace dullcast::commands {

namespace {

/// The words of an option that takes one of a few; empty for others.
std::string words_to_choose(const OptionWords& option) {
  if (option.name == "units") return "field si both";
  if (option.name == "worn") return "start half new";
  return "";
}

void add(std::string& list, const std::string& word) {
  if (!list.empty()) list += " ";
  list += word;
}

std::string bash_script() {
  std::ostringstream out;
  std::string names;
  for (const Command& command : command_table()) add(names, command.name);
  out << "# bash completion for dullcast, written by: dullcast help --completion bash\n"
         "_dullcast() {\n"
         "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} options='' takes='' "
         "endings='' ending\n"
         "  local commands='"
      << names
      << "'\n"
         "  COMPREPLY=()\n"
         "  if ((COMP_CWORD == 1)); then\n"
         "    mapfile -t COMPREPLY < <(compgen -W \"$commands help --help --version\" -- \"$word\")\n"
         "    return\n"
         "  fi\n"
         "  case ${COMP_WORDS[1]} in\n"
         "    help)\n"
         "      mapfile -t COMPREPLY < <(compgen -W \"$commands --manual --completion\" -- \"$word\")\n"
         "      return\n"
         "      ;;\n";
  for (const Command& command : command_table()) {
    std::string options, takes, endings;
    std::vector<std::pair<std::string, std::string>> choices;
    for (const OptionWords& option : words_of(command).options) {
      add(options, "--" + option.name);
      if (option.letter) add(options, std::string("-") + option.letter);
      const std::string choice = words_to_choose(option);
      if (!choice.empty())
        choices.emplace_back(option.name, choice);
      else if (!option.argument.empty())
        add(takes, "--" + option.name + (option.letter ? std::string(" -") + option.letter : ""));
    }
    for (const std::string& ending : endings_of(command)) add(endings, ending);
    out << "    " << command.name << ")\n      options='" << options << "'\n      takes='" << takes
        << "'\n      endings='" << endings << "'\n";
    for (const auto& [option, words] : choices)
      out << "      if [[ $before == --" << option
          << " ]]; then\n        mapfile -t COMPREPLY < <(compgen -W '" << words
          << "' -- \"$word\")\n        return\n      fi\n";
    out << "      ;;\n";
  }
  out << "  esac\n"
         "  if [[ \" $takes \" == *\" $before \"* ]]; then\n"
         "    mapfile -t COMPREPLY < <(compgen -f -- \"$word\")\n"
         "  elif [[ $word == -* ]]; then\n"
         "    mapfile -t COMPREPLY < <(compgen -W \"$options\" -- \"$word\")\n"
         "  else\n"
         "    mapfile -t COMPREPLY < <(compgen -d -- \"$word\"; for ending in $endings; do compgen -f -X "
         "\"!*$ending\" -- \"$word\"; done)\n"
         "  fi\n"
         "}\n"
         "complete -o filenames -F _dullcast dullcast\n";
  return out.str();
}

/// A text within single quotes of a description in brackets.
std::string zsh_words(const std::string& text) {
  std::string result;
  for (const char letter : text) {
    if (letter == '\'')
      result += "'\\''";
    else if (letter == '[' || letter == ']' || letter == ':' || letter == '\\')
      result += std::string("\\") + letter;
    else
      result += letter;
  }
  return result;
}

std::string zsh_script() {
  std::ostringstream out;
  out << "#compdef dullcast\n"
         "# zsh completion for dullcast, written by: dullcast help --completion zsh\n"
         "local -a commands\n"
         "commands=(\n";
  for (const Command& command : command_table())
    out << "  '" << command.name << ":" << zsh_words(command.what) << "'\n";
  out << "  'help:what there is, or the options of one command'\n)\n"
         "if (( CURRENT == 2 )); then\n"
         "  _describe command commands\n"
         "  return\n"
         "fi\n"
         "case $words[2] in\n"
         "  help) _describe command commands ;;\n";
  for (const Command& command : command_table()) {
    out << "  " << command.name << ")\n    shift words; (( CURRENT-- ))\n    _arguments \\\n";
    for (const OptionWords& option : words_of(command).options) {
      const std::string choice = words_to_choose(option);
      std::string rest = "[" + zsh_words(option.what) + "]";
      if (!option.argument.empty())
        rest += ":" + zsh_words(option.argument) + ":" + (choice.empty() ? "_files" : "(" + choice + ")");
      if (option.letter)
        out << "      '(-" << option.letter << " --" << option.name << ")'{-" << option.letter << ",--"
            << option.name << "}'" << rest << "' \\\n";
      else
        out << "      '*--" << option.name << rest << "' \\\n";
    }
    // A pattern in brackets alone would be taken for a list of words.
    std::string ends;
    for (const std::string& ending : endings_of(command))
      ends += (ends.empty() ? "" : "|") + ending.substr(1);
    const std::string files = ends.find('|') == std::string::npos ? "*." + ends : "*.(" + ends + ")";
    out << (ends.empty() ? "      && return\n" : "      '*:file:_files -g \"" + files + "\"'\n")
        << "    ;;\n";
  }
  out << "esac\n";
  return out.str();
}

}  // namespace

std::string completion_script(const std::string& shell) {
  if (shell == "bash") return bash_script();
  if (shell == "zsh") return zsh_script();
  throw WrongWords("there is no completion for \"" + shell + "\", only for bash and zsh");
}

}  // namespace dullcast::commands
