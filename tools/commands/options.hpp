#pragma once

#include <boost/program_options.hpp>
#include <exception>
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

/// What a command is asked, as its only word, by who wants to know what it takes; no shell hands that over by
/// accident. read_options then throws WhatItTakes, before the command has done anything.
inline constexpr const char* what_do_you_take = "\x01what do you take";

/// A command's answer: what heads its help, and its options, those that all commands have among them.
class WhatItTakes : public std::exception {
 public:
  WhatItTakes(std::string usage, const boost::program_options::options_description& shown)
      : usage(std::move(usage)), shown(shown) {}
  const char* what() const noexcept override { return "a command's options"; }
  std::string usage;
  boost::program_options::options_description shown;
};

/// What --threads asks for. Throws WrongWords for less than one and for more than any machine has use for.
int threads_asked(const boost::program_options::variables_map& values);

/// The one file that a command takes. Throws WrongWords, "name the " + `what`, where none was named.
std::string named_file(const ReadOptions& read, const char* positional, const std::string& what);

}  // namespace dullcast::commands
