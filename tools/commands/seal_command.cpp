#include "engine/base/plain_text.hpp"
#include "engine/storage/seal_file.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

int seal_command(const std::vector<std::string>& words) {
  po::options_description shown("Options");
  shown.add_options()("output,o", po::value<std::string>()->value_name("FILE"), "where the copy goes");
  add_replace_option(shown);
  const ReadOptions read = read_options(
      words,
      "dullcast seal RESULT.h5 -o COPY.h5\n\n"
      "Looks through the file of a run or a sweep that has no checksum at its end, as other programs leave "
      "it "
      "when\nthey change it, and writes a copy with one, which all commands read.\n"
      "Ends with 0 when done, 2 for wrong options, 4 for a file that cannot be read or written.\n",
      shown, "result", 1);
  if (read.finished) return ended_well;
  const std::string from = named_file(read, "result", "file to look through");
  if (read.values.count("output") == 0) throw WrongWords("say where the copy goes with -o");
  const std::string to = read.values["output"].as<std::string>();
  Outputs outputs(read.values);
  outputs.reads(from);
  outputs.will_write(to);
  const std::string kind = storage::write_sealed_copy(from, to);
  std::cout << base::plain(to) << ": a " << kind << ", read through and ended with a checksum\n";
  return ended_well;
}

}  // namespace dullcast::commands
