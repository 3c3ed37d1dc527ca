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

}  // namespace dullcast::commands
