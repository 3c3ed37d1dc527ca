#include "engine/base/output_place.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/storage/seal_file.hpp"
#include "tools/commands/command.hpp"
#include "tools/commands/options.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

int seal_command(const std::vector<std::string>& words) {
  po::options_description shown("Options");
  shown.add_options()("output,o", po::value<std::string>()->value_name("FILE"), "where the copy goes")(
      "replace", "write over a file that is there");
  const ReadOptions read = read_options(
      words,
      "dullcast seal RESULT.h5 -o COPY.h5\n\n"
      "Looks through the file of a run or a sweep that has no checksum at its end, as other programs leave "
      "it "
      "when\nthey change it, and writes a copy with one, which all commands read.\n"
      "Ends with 0 when done, 2 for wrong options, 4 for a file that cannot be read or written.\n",
      shown, "result", 1);
  if (read.finished) return ended_well;
  if (read.values.count("result") == 0) throw WrongWords("name the file to look through");
  if (read.values.count("output") == 0) throw WrongWords("say where the copy goes with -o");
  const std::string from = read.values["result"].as<std::vector<std::string>>().front();
  const std::string to = read.values["output"].as<std::string>();
  base::check_output_place({to, read.values.count("replace") != 0}, {from});
  const std::string kind = storage::write_sealed_copy(from, to);
  std::cout << base::plain(to) << ": a " << kind << ", read through and ended with a checksum\n";
  return ended_well;
}

}  // namespace dullcast::commands
