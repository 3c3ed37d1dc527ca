#pragma once

#include <boost/program_options.hpp>
#include <stdexcept>
#include <string>
#include <vector>

/// The commands of the program `proofs`. Each lives in its own file and reads the words behind its name.
namespace dullcast::proofs {

/// How the program ends.
enum Ending : int {
  ended_well = 0,
  wrong_words = 2,  // the command line makes no sense
  failed = 4        // something could not be read, computed or written
};

/// Thrown for a command line that makes no sense; what() is one sentence without its full stop.
class WrongOptions : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

int measurements_command(const std::vector<std::string>& words);
int heat_command(const std::vector<std::string>& words);

/// Words of a command that takes options only; --help is added and printed after `usage`, and `finished` set.
/// Throws WrongOptions.
boost::program_options::variables_map read_words(const std::vector<std::string>& words, const char* usage,
                                                 boost::program_options::options_description shown,
                                                 bool& finished);

}  // namespace dullcast::proofs
