#include "tools/commands/manual_page.hpp"

#include <sstream>

#include "engine/base/program_version.hpp"
#include "tools/commands/command_words.hpp"

namespace dullcast::commands {

namespace {

/// A text as it stands, whatever its letters mean to the formatter.
std::string roff(const std::string& text) {
  std::string result;
  for (const char letter : text) {
    if (letter == '\\')
      result += "\\(rs";
    else if (letter == '-')
      result += "\\-";
    else if (letter == '~')
      result += "\\(ti";
    else
      result += letter;
  }
  if (!result.empty() && (result[0] == '.' || result[0] == '\'')) result.insert(0, "\\&");
  return result;
}

/// A request's argument in quotes.
std::string quoted(const std::string& text) {
  std::string result = "\"";
  for (const char letter : roff(text))
    result += letter == '"' ? std::string("\\(dq") : std::string(1, letter);
  return result + "\"";
}

/// How a command is called, a line each, then what it does; lines that begin with a blank stay lines.
void print_usage(std::ostream& out, const std::string& usage) {
  std::istringstream lines(usage);
  std::string line;
  while (std::getline(lines, line) && !line.empty()) out << ".B " << roff(line) << "\n.br\n";
  bool between = true;
  while (std::getline(lines, line)) {
    if (line.empty()) {
      between = true;
      continue;
    }
    if (between) out << ".PP\n";
    between = false;
    if (line[0] == ' ') out << ".br\n";
    out << roff(line.substr(line.find_first_not_of(' '))) << "\n";
  }
}

void print_options(std::ostream& out, const CommandWords& words) {
  for (const OptionWords& option : words.options) {
    out << ".TP\n\\fB";
    if (option.letter) out << "\\-" << option.letter << "\\fR, \\fB";
    out << roff("--" + option.name) << "\\fR";
    if (!option.argument.empty()) out << " \\fI" << roff(option.argument) << "\\fR";
    out << "\n" << roff(option.what);
    if (!option.usual.empty()) out << " (usual: " << roff(option.usual) << ")";
    out << "\n";
  }
}

}  // namespace

std::string manual_page() {
  std::ostringstream out;
  out << ".TH DULLCAST 1 "
      << "\"" << base::program_day() << "\""
      << " " << quoted("dullcast " + base::program_version()) << "\n"
      << ".SH NAME\ndullcast \\- forecasts heat, wear and rework of PDC drill bits\n"
      << ".SH SYNOPSIS\n.B dullcast\n.I COMMAND\n[\\fIFILE\\fR...]\n[\\fIOPTION\\fR...]\n"
      << ".SH DESCRIPTION\n"
      << "Computes how hot each cutter of a PDC drill bit runs, how fast it wears, how likely it chips, and "
         "when the\nbit is due for rework, in a given formation, at a given weight, speed and flow.\n"
         "YAML scenarios go in; HDF5 files and a plain forecast come out.\n"
         ".PP\nNothing is written over unless\n.B \\-\\-replace\nsays so, and\n.B \\-\\-brief\nsays it in a "
         "few lines.\n"
         "Results are estimates.\nThey replace neither inspection nor local codes nor a licensed driller's "
         "judgement.\n"
         ".PP\nThe commands:\n";
  for (const Command& command : command_table()) {
    out << ".TP\n\\fB" << roff(command.name) << "\\fR";
    if (*command.words != 0) out << " " << roff(command.words);
    out << "\n" << roff(command.what) << "\n";
  }
  out << ".TP\n\\fBhelp\\fR [\\fICOMMAND\\fR]\nwhat there is, or the options of one command\n"
      << ".TP\n\\fBhelp \\-\\-manual\\fR\nthis page\n"
      << ".TP\n\\fBhelp \\-\\-completion\\fR \\fISHELL\\fR\na script for the Tab key of bash or zsh\n"
      << ".SH COMMANDS\n";
  for (const Command& command : command_table()) {
    const CommandWords words = words_of(command);
    out << ".SS " << quoted(std::string("dullcast ") + command.name) << "\n";
    print_usage(out, words.usage);
    print_options(out, words);
  }
  out << ".SH \"EXIT STATUS\"\n"
         ".TP\n0\nall went well\n.TP\n2\nthe command line makes no sense\n"
         ".TP\n3\na scenario, a plan or an earlier result cannot be used\n"
         ".TP\n4\na run, or the writing of what it found, failed\n"
         ".SH ENVIRONMENT\n"
         ".TP\n.B DULLCAST_UNITS\nfield, si or both: the units that are shown where\n.B \\-\\-units\ndoes "
         "not "
         "say\n"
         ".TP\n.B DULLCAST_LIBRARY\nfolder of rocks, grades, lots, fluids, bodies, bits and model numbers "
         "where\n"
         ".B \\-\\-library\ndoes not say\n"
         ".SH FILES\n"
         ".TP\n.I \\(ti/.config/dullcast/units\nthe word of\n.B DULLCAST_UNITS\nfor every day\n"
         ".TP\n.I library\nbeside a scenario or one folder up: a library of one's own, which goes before the "
         "program's\n"
         ".SH EXAMPLES\n.nf\n"
      << roff("dullcast check scenarios/field_of_forty_wells.yaml") << "\n"
      << roff("dullcast run scenarios/field_of_forty_wells.yaml --brief -o field.h5") << "\n"
      << roff("dullcast report field.h5") << "\n.fi\n";
  return out.str();
}

}  // namespace dullcast::commands
