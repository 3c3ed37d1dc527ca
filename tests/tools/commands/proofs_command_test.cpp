#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <map>
#include <regex>

#include "engine/input/library.hpp"
#include "tools/commands/program.hpp"
#include "tools/proofs/measurements.hpp"

// The program `proofs`: its table says what the library behind it computes, and hides no failing line.
namespace dullcast::commands {
namespace {

using testing::Said;
using testing::Scratch;
using testing::text_of;

Said say_proofs(const std::string& words) {
  return testing::say_to(DULLCAST_PROOFS, words);
}

/// Rows of comma-separated values by the names in their first row. Quotes as csv_row writes them.
std::vector<std::map<std::string, std::string>> read_csv(const std::string& text) {
  std::vector<std::vector<std::string>> rows(1, std::vector<std::string>(1));
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char letter = text[i];
    if (quoted && letter == '"' && i + 1 < text.size() && text[i + 1] == '"') {
      rows.back().back() += text[++i];
    } else if (letter == '"') {
      quoted = !quoted;
    } else if (!quoted && letter == ',') {
      rows.back().emplace_back();
    } else if (!quoted && letter == '\n') {
      rows.emplace_back(1);
    } else {
      rows.back().back() += letter;
    }
  }
  EXPECT_EQ(rows.back(), std::vector<std::string>(1)) << "the last row does not end";
  rows.pop_back();
  std::vector<std::map<std::string, std::string>> named;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    EXPECT_EQ(rows[i].size(), rows[0].size()) << "row " << i;
    named.emplace_back();
    for (std::size_t k = 0; k < std::min(rows[i].size(), rows[0].size()); ++k)
      named.back()[rows[0][k]] = rows[i][k];
  }
  return named;
}

int count_of(const std::string& text, const std::regex& pattern) {
  return static_cast<int>(std::distance(std::sregex_iterator(text.begin(), text.end(), pattern), {}));
}

/// One run of the program, and what has to hold of its table. ctest runs every test as a process of its own,
/// so they are one test: the run takes a quarter of a minute.
class MeasurementsTable : public ::testing::Test {
 protected:
  static void counts_its_lines_and_its_failing_lines();
  static void medians_are_those_of_the_library_behind_it();
  static void laboratory_file_gives_back_the_measurements_and_the_errors();
  static void the_claim_is_tried_on_at_least_six_layouts_each_refitted();
  static void curves_are_numbers_of_every_panel();
  static void model_page_says_what_the_program_writes();
  static void SetUpTestSuite() {
    Scratch folder;
    std::filesystem::copy_file(model_page, folder / "page.md");
    const Said said = say_proofs("measurements --csv " + testing::word((folder / "new folder").string()) +
                                 " --page " + testing::word((folder / "page.md").string()));
    ASSERT_EQ(said.code, 0) << said.err;
    EXPECT_EQ(said.err, "");
    printed = said.out;
    for (const char* name : {"lines", "laboratory", "layouts", "curves"})
      written[name] = text_of(folder / "new folder" / (std::string(name) + ".csv"));
    page = text_of(folder / "page.md");
  }
  static std::vector<std::map<std::string, std::string>> file(const std::string& name) {
    return read_csv(written.at(name));
  }
  inline static const std::string model_page = DULLCAST_SOURCE_DIR "/models/README.md";
  inline static std::string printed;
  inline static std::string page;
  inline static std::map<std::string, std::string> written;
};

void MeasurementsTable::counts_its_lines_and_its_failing_lines() {
  const auto lines = file("lines");
  int failing = 0;
  for (const auto& line : lines) {
    ASSERT_TRUE(line.at("verdict") == "holds" || line.at("verdict") == "FAILS") << line.at("what");
    for (const char* cell : {"what", "source", "published", "model", "difference", "standing"})
      EXPECT_FALSE(line.at(cell).empty()) << line.at("what") << ": " << cell;
    if (line.at("verdict") == "FAILS") ++failing;
    // Every line of the file stands in the table, and a failing one twice.
    EXPECT_NE(printed.find("  " + line.at("verdict") + "  " + line.at("what")), std::string::npos)
        << line.at("what");
  }
  EXPECT_GT(lines.size(), 150u);
  EXPECT_GT(failing, 0);
  EXPECT_LT(failing, static_cast<int>(lines.size()) / 2);
  EXPECT_NE(printed.find(std::to_string(lines.size()) + " lines, " + std::to_string(failing) + " failing"),
            std::string::npos);
  EXPECT_EQ(count_of(printed, std::regex("(^|\n)  FAILS  ")), 2 * failing);
}

void MeasurementsTable::medians_are_those_of_the_library_behind_it() {
  const scenario::ModelNumbers numbers =
      input::read_library(DULLCAST_SOURCE_DIR "/scenarios/library", input::UnitParser()).models;
  const auto rows = proofs::read_lab_rows(DULLCAST_SOURCE_DIR "/tests/published/lab_full_bit_drilling.csv");
  const proofs::LabErrors errors =
      proofs::kept_back_errors(rows, proofs::keep_back(rows, proofs::library_lab_model(numbers)));
  const auto shown = [](const std::vector<double>& v) {
    return proofs::number_words("median %.1f %%", 100.0 * proofs::median_size(v)) +
           proofs::number_words(", worst %.1f %%", 100.0 * proofs::greatest_size(v));
  };
  std::map<std::string, std::string> said;
  for (const auto& line : file("lines"))
    if (line.at("standing") == "predicted") said[line.at("what")] = line.at("model");
  EXPECT_EQ(said["all: ROP at measured weight (35 rows)"], shown(errors.speed));
  EXPECT_EQ(said["all: weight at measured depth of cut (35 rows)"], shown(errors.weight));
}

void MeasurementsTable::laboratory_file_gives_back_the_measurements_and_the_errors() {
  const auto rows = proofs::read_lab_rows(DULLCAST_SOURCE_DIR "/tests/published/lab_full_bit_drilling.csv");
  const auto written = file("laboratory");
  ASSERT_EQ(written.size(), rows.size());
  std::vector<double> errors;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const double measured = std::stod(written[i].at("rop_m_per_h"));
    EXPECT_NEAR(measured / (3600.0 * rows[i].speed), 1.0, 1e-5);  // six digits
    EXPECT_NEAR(std::stod(written[i].at("weight_n")) / rows[i].weight, 1.0, 1e-5);
    errors.push_back(std::stod(written[i].at("rop_kept_back_m_per_h")) / measured - 1.0);
  }
  const double median = proofs::median_size(errors);
  EXPECT_NE(printed.find("all: ROP at measured weight (35 rows)"), std::string::npos);
  EXPECT_NE(printed.find(proofs::number_words("median %.1f %%, worst 2", 100.0 * median)), std::string::npos);
  EXPECT_LT(median, proofs::claimed_median);
}

void MeasurementsTable::the_claim_is_tried_on_at_least_six_layouts_each_refitted() {
  const auto rows = file("layouts");
  std::map<std::string, int> kinds;
  std::map<std::string, int> lands;
  for (const auto& row : rows) {
    ++kinds[row.at("kind")];
    if (row.at("kind") == "layout") ++lands[row.at("land_mm")];
    const double median = std::stod(row.at("rop_median_error"));
    EXPECT_GT(median, 0.0);
    const bool broken = median > proofs::claimed_median;
    EXPECT_EQ(broken, printed.find("  FAILS  " + row.at("what") + ": land") != std::string::npos)
        << row.at("what");
  }
  EXPECT_GE(kinds["layout"], 6);
  EXPECT_GE(lands.size(), 6u) << "layouts that are refitted do not share one land";
}

void MeasurementsTable::curves_are_numbers_of_every_panel() {
  std::map<std::string, int> panels;
  for (const auto& point : file("curves")) {
    ++panels[point.at("panel")];
    EXPECT_TRUE(std::isfinite(std::stod(point.at("x"))) && std::isfinite(std::stod(point.at("y"))));
  }
  for (const char* panel :
       {"speed", "per_watt", "depth", "rake_rock", "wear", "acceleration", "line", "bevel", "rpm"})
    EXPECT_GE(panels[panel], 4) << panel;
}

void MeasurementsTable::model_page_says_what_the_program_writes() {
  EXPECT_EQ(page, text_of(model_page)) << "run: build/proofs measurements --page models/README.md";
}

TEST_F(MeasurementsTable, IsThatOfTheLibraryBehindItAndHidesNothing) {
  {
    SCOPED_TRACE("counts its lines and its failing lines");
    counts_its_lines_and_its_failing_lines();
  }
  {
    SCOPED_TRACE("medians are those of the library behind it");
    medians_are_those_of_the_library_behind_it();
  }
  {
    SCOPED_TRACE("laboratory file gives back the measurements and the errors");
    laboratory_file_gives_back_the_measurements_and_the_errors();
  }
  {
    SCOPED_TRACE("the claim is tried on at least six layouts each refitted");
    the_claim_is_tried_on_at_least_six_layouts_each_refitted();
  }
  {
    SCOPED_TRACE("curves are numbers of every panel");
    curves_are_numbers_of_every_panel();
  }
  {
    SCOPED_TRACE("the model page says what the program writes");
    model_page_says_what_the_program_writes();
  }
}

TEST(ProofLines, HoldOnlyWithinTheirMarginAndNeverOnNan) {
  const double nan = std::nan("");
  EXPECT_TRUE(proofs::number_line("a", "b", "%.1f", 10.0, 10.4, 0.5).holds);
  EXPECT_FALSE(proofs::number_line("a", "b", "%.1f", 10.0, 10.6, 0.5).holds);
  EXPECT_FALSE(proofs::number_line("a", "b", "%.1f", 10.0, nan, 0.5).holds);
  EXPECT_TRUE(proofs::departure_line("a", "b", 0.05, 0.04).holds);
  EXPECT_FALSE(proofs::departure_line("a", "b", 0.05, 0.06).holds);
  EXPECT_FALSE(proofs::departure_line("a", "b", 0.05, nan).holds);
  EXPECT_TRUE(proofs::trend_line("a", "b", true, {1.0, 2.0, 3.0}, "%.0f").holds);
  EXPECT_FALSE(proofs::trend_line("a", "b", true, {1.0, 3.0, 2.0}, "%.0f").holds);
  EXPECT_FALSE(proofs::trend_line("a", "b", false, {1.0, 2.0, 3.0}, "%.0f").holds);
  EXPECT_FALSE(proofs::trend_line("a", "b", true, {1.0, nan, 3.0}, "%.0f").holds);
  EXPECT_FALSE(proofs::trend_line("a", "b", true, {1.0, 1.05}, "%.0f", 0.1).holds);
  EXPECT_TRUE(std::isnan(proofs::median_size({0.1, nan, 0.2})));
  EXPECT_EQ(proofs::median_size({-0.3, 0.1, 0.2}), 0.2);
}

TEST(Proofs, WrongWordsEndWithTwo) {
  for (const std::string words :
       {"", "chances", "measurements extra", "measurements --csv", "measurements --colour"}) {
    const Said said = say_proofs(words);
    EXPECT_EQ(said.code, 2) << words;
    EXPECT_FALSE(said.err.empty()) << words;
    EXPECT_EQ(said.out, "") << words;
  }
}

TEST(Proofs, AFolderThatCannotBeWrittenEndsWithFour) {
  const Scratch folder;
  const std::string file = folder.write("taken", "a file, no folder");
  const Said said = say_proofs("measurements --csv " + testing::word(file));
  EXPECT_EQ(said.code, 4);
  EXPECT_NE(said.err.find("cannot be written"), std::string::npos) << said.err;
}

TEST(Proofs, HelpEndsWithNought) {
  EXPECT_EQ(say_proofs("--help").code, 0);
  const Said said = say_proofs("measurements --help");
  EXPECT_EQ(said.code, 0);
  EXPECT_NE(said.out.find("--csv"), std::string::npos);
}

}  // namespace
}  // namespace dullcast::commands
