
#include "tools/commands/command.hpp"
#include "tools/commands/options.hpp"
#include "tools/commands/outputs.hpp"
#include "tools/commands/progress_line.hpp"
#include "tools/commands/ready_scenario.hpp"
#include "tools/commands/ready_shelf.hpp"
#include "tools/commands/shelf_report.hpp"
#include "tools/commands/usual_units.hpp"

namespace dullcast::commands {

namespace po = boost::program_options;

int shelf_command(const std::vector<std::string>& words) {
  po::options_description shown("Options");
  shown.add_options()("brief", "the medians, and the bits that lie farthest from their forecast")(
      "csv", po::value<std::string>()->value_name("FILE"),
      "also write the table as comma-separated values, SI units in the header");
  add_replace_option(shown);
  add_units_option(shown);
  add_drilling_options(shown, "for the runs");
  const ReadOptions read = read_options(
      words,
      "dullcast shelf SHELF [options]\n\n"
      "Prints what each bit of a shelf did and was found like, beside what its scenario forecasts of it. A "
      "shelf is a file of\n"
      "records of bits that came back, a table (.csv) or YAML; dullcast record adds to one.\n"
      "Ends with 0 when done, 2 for wrong options, 3 for a shelf that cannot be used, 4 for a file that "
      "cannot be written.\n",
      shown, "shelf", 1);
  if (read.finished) return ended_well;
  const std::string file = named_file(read, "shelf", "shelf to tell of");
  const base::ShownUnits units = units_of(read.values);
  const int threads = threads_asked(read.values);
  const std::string library = read.values["library"].as<std::string>();
  const std::vector<scenario::ShelvedBit> shelf = ready_shelf(file, library);
  Outputs outputs(read.values);
  outputs.reads(file, library, shelf);
  outputs.will_write_csv();
  std::vector<analysis::BesideForecast> beside;
  {
    ProgressLine line("Drilling what the bits did");
    beside = analysis::shelf_beside_forecast(shelf, threads,
                                             [&](double done, double all) { line.tell(done, all); });
  }
  print_shelf(Sheet{std::cout, units}, file, shelf, beside, read.values.count("brief") > 0);
  outputs.write_csv([&](std::ostream& out) { write_shelf_csv(out, shelf, beside); });
  return ended_well;
}

}  // namespace dullcast::commands
