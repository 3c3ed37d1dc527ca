#include "tools/proofs/command.hpp"

#include <iostream>

namespace dullcast::proofs {

namespace po = boost::program_options;

po::variables_map read_words(const std::vector<std::string>& words, const char* usage,
                             po::options_description shown, bool& finished) {
  shown.add_options()("help,h", "this text");
  po::variables_map values;
  try {
    po::store(po::command_line_parser(words)
                  .options(shown)
                  .positional({})
                  .style(po::command_line_style::unix_style & ~po::command_line_style::allow_guessing)
                  .run(),
              values);
    po::notify(values);
  } catch (const po::too_many_positional_options_error&) {
    throw WrongOptions("this command takes options only");
  } catch (const po::error& error) {
    throw WrongOptions(error.what());
  }
  finished = values.count("help") != 0;
  if (finished) std::cout << usage << "\n" << shown;
  return values;
}

}  // namespace dullcast::proofs
