#pragma once

#include <boost/program_options.hpp>
#include <string>
#include <vector>

namespace dullcast::commands {

/// Reads a command's words. `usage` heads the help; when --help or --version was asked for they are printed
/// and `finished` is set. Throws WrongWords for what cannot be read.
struct ReadOptions {
  boost::program_options::variables_map values;
  bool finished = false;
};
ReadOptions read_options(const std::vector<std::string>& words, const std::string& usage,
                         boost::program_options::options_description shown, const char* positional, int most);

/// What --threads asks for. Throws WrongWords for less than one and for more than any machine has use for.
int threads_asked(const boost::program_options::variables_map& values);

/// The one file that a command takes. Throws WrongWords, "name the " + `what`, where none was named.
std::string named_file(const ReadOptions& read, const char* positional, const std::string& what);

}  // namespace dullcast::commands
