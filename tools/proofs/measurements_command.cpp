#include <boost/program_options.hpp>
#include <iostream>

#include "engine/input/library.hpp"
#include "tools/proofs/command.hpp"
#include "tools/proofs/measurements.hpp"

namespace dullcast::proofs {
namespace {

namespace po = boost::program_options;

constexpr const char* usage =
    "proofs measurements [--csv FOLDER]\n\n"
    "Prints what the model gives beside what was measured or published, line by line, and whether it holds.\n"
    "A failing line is listed as failing; the program still ends with 0, because this is a report.\n"
    "Ends with 2 for wrong options, 4 when a file cannot be read or written.\n";

/// The failing lines once more, so that none is overlooked.
void print_count(std::ostream& out, const std::vector<Section>& sections) {
  std::size_t lines = 0;
  int failing = 0, predicted = 0, predicted_failing = 0;
  for (const Section& section : sections) {
    lines += section.lines.size();
    failing += section.failing();
    for (const Line& line : section.lines) {
      if (line.standing != Standing::predicted) continue;
      ++predicted;
      if (!line.holds) ++predicted_failing;
    }
  }
  out << "Failing lines\n";
  for (const Section& section : sections)
    for (const Line& line : section.lines)
      if (!line.holds)
        out << "  FAILS  " << line.what << ": " << line.published << " against " << line.model << " ("
            << standing_words(line.standing) << ")\n";
  out << "\n"
      << lines << " lines, " << failing << " failing; of " << predicted << " predicted lines "
      << predicted_failing << " failing.\n"
      << "Where the model fails it is to be believed less; no line replaces a measurement on the rig.\n";
}

}  // namespace

int measurements_command(const std::vector<std::string>& words) {
  bool finished = false;
  po::options_description shown("Options");
  shown.add_options()("csv", po::value<std::string>()->value_name("FOLDER"),
                      "write lines.csv, laboratory.csv, layouts.csv and curves.csv there as well");
  const po::variables_map values = read_words(words, usage, shown, finished);
  if (finished) return ended_well;
  const std::string folder = values.count("csv") != 0 ? values["csv"].as<std::string>() : "";
  if (!folder.empty()) make_folder(folder);  // before the work, so that a wrong one is told at once

  const std::string tree = DULLCAST_SOURCE_DIR;
  const scenario::ModelNumbers numbers =
      input::read_library(tree + "/scenarios/library", input::UnitParser()).models;
  const LabProof lab = prove_lab(read_lab_rows(tree + "/tests/published/lab_full_bit_drilling.csv"), numbers);
  std::vector<Section> sections = lab.sections;
  std::vector<Curve> curves;
  for (const std::vector<Section>& more :
       {published_trends(numbers, curves), published_values(), rules_of_thumb(curves)})
    sections.insert(sections.end(), more.begin(), more.end());

  std::cout
      << "The model against measurements and published values. \"predicted\": nothing of the line went "
         "into the model;\n\"input\": the model took the number or formula from that source, so the line "
         "proves the code, not the physics;\n\"fitted\": two numbers of the model were chosen on it.\n\n";
  for (const Section& section : sections) print_section(std::cout, section);
  print_count(std::cout, sections);
  if (!folder.empty()) {
    write_text(folder, "lines.csv", lines_csv(sections));
    write_text(folder, "laboratory.csv", lab_rows_csv(lab));
    write_text(folder, "layouts.csv", lab_layouts_csv(lab));
    write_text(folder, "curves.csv", curves_csv(curves));
  }
  return ended_well;
}

}  // namespace dullcast::proofs
