#include <boost/program_options.hpp>
#include <iostream>

#include "engine/input/library.hpp"
#include "tools/proofs/command.hpp"
#include "tools/proofs/measurements.hpp"
#include "tools/proofs/page.hpp"

namespace dullcast::proofs {
namespace {

namespace po = boost::program_options;

constexpr const char* usage =
    "proofs measurements [--csv FOLDER] [--page FILE]\n\n"
    "Prints what the model gives beside what was measured or published, line by line, and whether it holds.\n"
    "A failing line is listed as failing; the program still ends with 0, because this is a report.\n"
    "Ends with 2 for wrong options, 4 when a file cannot be read or written.\n";

struct Counts {
  std::size_t lines = 0;
  int failing = 0, predicted = 0, predicted_failing = 0;
};

Counts count(const std::vector<Section>& sections) {
  Counts counts;
  for (const Section& section : sections) {
    counts.lines += section.lines.size();
    counts.failing += section.failing();
    for (const Line& line : section.lines) {
      if (line.standing != Standing::predicted) continue;
      ++counts.predicted;
      if (!line.holds) ++counts.predicted_failing;
    }
  }
  return counts;
}

std::string count_words(const Counts& counts) {
  return std::to_string(counts.lines) + " lines, " + std::to_string(counts.failing) + " failing; of " +
         std::to_string(counts.predicted) + " predicted lines " + std::to_string(counts.predicted_failing) +
         " failing.";
}

/// The failing lines once more, so that none is overlooked.
void print_count(std::ostream& out, const std::vector<Section>& sections) {
  out << "Failing lines\n";
  for (const Section& section : sections)
    for (const Line& line : section.lines)
      if (!line.holds)
        out << "  FAILS  " << line.what << ": " << line.published << " against " << line.model << " ("
            << standing_words(line.standing) << ")\n";
  out << "\n"
      << count_words(count(sections)) << "\n"
      << "Where the model fails it is to be believed less; no line replaces a measurement on the rig.\n";
}

/// For the model page: the laboratory's medians, how many lines of each part hold, and every failing line.
std::string measurements_page(const std::vector<Section>& laboratory, const std::vector<Section>& all) {
  std::string text = table_head({"laboratory drilling, by group", "asked", "model", "drift", "standing", ""});
  for (const Section& section : laboratory)
    for (const Line& line : section.lines)
      if (line.published.rfind("median", 0) == 0)
        text += table_row({line.what, line.published, line.model, line.difference,
                           standing_words(line.standing), line.holds ? "holds" : "**FAILS**"});
  text += "\n" + table_head({"part", "lines", "failing", "predicted", "of them failing"});
  for (const Section& section : all) {
    const Counts counts = count({section});
    text += table_row({section.title, std::to_string(counts.lines), std::to_string(counts.failing),
                       std::to_string(counts.predicted), std::to_string(counts.predicted_failing)});
  }
  text += "\n" + count_words(count(all)) + " Those that fail:\n\n";
  text += table_head({"line", "published", "model", "difference", "standing", "source"});
  for (const Section& section : all)
    for (const Line& line : section.lines)
      if (!line.holds)
        text += table_row({line.what, line.published, line.model, line.difference,
                           standing_words(line.standing), line.source});
  return text;
}

}  // namespace

int measurements_command(const std::vector<std::string>& words) {
  bool finished = false;
  po::options_description shown("Options");
  shown.add_options()("csv", po::value<std::string>()->value_name("FOLDER"),
                      "write lines.csv, laboratory.csv, layouts.csv and curves.csv there as well")(
      "page", po::value<std::string>()->value_name("FILE"),
      "put the medians, the counts and the failing lines between the marks of this page");
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
  if (values.count("page") != 0)
    write_part(values["page"].as<std::string>(), "measurements", measurements_page(lab.sections, sections));
  return ended_well;
}

}  // namespace dullcast::proofs
