#include <fstream>
#include <iostream>

#include "tools/proofs/command.hpp"
#include "tools/proofs/heat_table.hpp"
#include "tools/proofs/measurements.hpp"
#include "tools/proofs/page.hpp"

namespace dullcast::proofs {

namespace po = boost::program_options;

int heat_command(const std::vector<std::string>& words) {
  constexpr const char* usage =
      "proofs heat [--csv FOLDER] [--page FILE] [--cases N] [--transients N] [--seed N]\n\n"
      "Solves random worn cutters in three dimensions and prints how far the engine's thermal network is "
      "from them.\n"
      "Cutters of 8 to 19 mm, flats of 2 to 60 mm2, convection of 50 to 50,000 W/(m2 K). Ends with 2 for "
      "wrong\n"
      "options, 4 when a file cannot be written.\n";
  HeatCases cases;
  po::options_description shown("Options");
  shown.add_options()("csv", po::value<std::string>()->value_name("FOLDER"),
                      "write heat_steady.csv and heat_transients.csv there")(
      "page", po::value<std::string>()->value_name("FILE"), "put the table between the marks of this page")(
      "cases", po::value<int>(&cases.steady)->value_name("N")->default_value(cases.steady),
      "worn flats in steady heat; a third as many lands and chips")(
      "transients", po::value<int>(&cases.transients)->value_name("N")->default_value(cases.transients),
      "cutters through heat coming on, a pulse, a pump stop and restart")(
      "seed", po::value<std::uint64_t>(&cases.seed)->value_name("N")->default_value(cases.seed),
      "of the random cases; the network was fitted to cases of seed 7");
  bool finished = false;
  const po::variables_map values = read_words(words, usage, shown, finished);
  if (finished) return ended_well;
  if (cases.steady < 1 || cases.transients < 0)
    throw WrongOptions("--cases takes 1 or more, --transients 0 or more");
  const std::string folder = values.count("csv") != 0 ? values["csv"].as<std::string>() : "";
  if (!folder.empty()) make_folder(folder);
  const HeatProof proof = prove_heat(cases, [](int, int) {});
  print_heat_proof(std::cout, proof);
  if (values.count("page") != 0)
    write_part(values["page"].as<std::string>(), "heat", heat_page(cases, proof));
  if (!folder.empty()) {
    const auto write = [&](const std::string& name, void (*lines)(std::ostream&, const HeatProof&)) {
      std::ofstream file(folder + "/" + name);
      lines(file, proof);
      if (!file.flush()) throw std::runtime_error(folder + "/" + name + " could not be written");
    };
    write("heat_steady.csv", write_steady_csv);
    write("heat_transients.csv", write_transient_csv);
  }
  return ended_well;
}

}  // namespace dullcast::proofs
