#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "engine/storage/made_up_run.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/storage/write_result.hpp"

namespace dullcast::storage {
namespace {

std::string text_of(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

bool has_octave() {
  return std::system("octave-cli --norc --quiet --eval 'pkg load netcdf' >/dev/null 2>&1") == 0;
}

/// What Octave prints of a script in `folder`.
std::string octave_says(const made_up::Folder& folder, const std::string& script) {
  std::ofstream(folder / "script.m") << script;
  const std::string command = "cd '" + folder.path().string() +
                              "' && octave-cli --norc --quiet script.m > said.txt 2> complaints.txt";
  EXPECT_EQ(std::system(command.c_str()), 0) << text_of(folder / "complaints.txt");
  EXPECT_EQ(text_of(folder / "complaints.txt").find("warning: load"), std::string::npos)
      << text_of(folder / "complaints.txt");
  return text_of(folder / "said.txt");
}

/// The lines that results/README.md shows, word for word.
TEST(OpenInOctave, TheLinesOfThePageReadARun) {
  if (!has_octave())
    GTEST_SKIP() << "octave and octave-netcdf are not installed (tools/install-packages tests)";
  const std::string page = text_of(std::string(DULLCAST_SOURCE_DIR) + "/results/README.md");
  const std::string opening = "```octave\n";
  const std::size_t begin = page.find(opening);
  ASSERT_NE(begin, std::string::npos);
  const std::size_t first = begin + opening.size();
  const std::string lines = page.substr(first, page.find("```", first) - first);

  const made_up::Folder folder;
  const int cutters = 5, rows = 3000;
  const simulation::RunOutcome outcome = made_up::plain_outcome(cutters, rows);
  write_result(folder / "run.h5", made_up::scenario(cutters), outcome);
  const std::string said = octave_says(folder, lines + R"(
printf("%d hottest, %.6f C\n", numel(hottest), max(hottest));
printf("%d by %d\n", size(run.history.worn_height));
printf("worn %.9f m, weight %.3f N\n", run.history.worn_height(5, 3000), run.history.weight(3000));
printf("cutters %s\n", mat2str(double(ncread("run.h5", "/bit/blade"))'));
printf("depths %s, rule %.4f, no rule %d\n", mat2str(depth), run.rework_rules.worn_height, ...
       isnan(run.rework_rules.outer_dull_grade));
)");
  const auto& last = outcome.history.rows.back();
  char expected[400];
  std::snprintf(expected, sizeof expected,
                "footage = 1234.5\nunit = N\n%d hottest, %.6f C\n%d by %d\nworn %.9f m, weight %.3f N\n"
                "cutters [1 2 3 4 1]\ndepths [%.15g %.15g], rule 0.0030, no rule 1\n",
                rows, last.flat_temperature(cutters - 1) - 273.15, cutters, rows,
                last.worn_height(cutters - 1), last.weight, outcome.holes[0].depth_reached,
                outcome.holes[1].depth_reached);
  EXPECT_EQ(said, expected);
}

TEST(OpenInOctave, ASweepsRunsAndMessagesAreRead) {
  if (!has_octave())
    GTEST_SKIP() << "octave and octave-netcdf are not installed (tools/install-packages tests)";
  const made_up::Folder folder;
  SweepHeader header;
  header.table.title = header.plan = header.scenario = header.manifest = "made up";
  header.table.points = 3;
  header.table.draws = 1;
  header.table.columns.resize(1);
  header.table.columns[0].name = "footage";
  header.table.columns[0].units = "m";
  header.table.columns[0].meaning = "length drilled in all holes";
  write_sweep(folder / "sweep.h5", header, 1, [](long) {
    SweepPart part;
    part.values.resize(3, 1);
    part.values << 10.5, 20.25, 30.0;
    part.failures = {{2, "it stood still"}};
    return part;
  });
  EXPECT_EQ(octave_says(folder, R"(
pkg load netcdf
sweep = load("-hdf5", "sweep.h5", "runs");
printf("%s of cases %s\n", mat2str(sweep.runs.footage), mat2str(double(sweep.runs.case)));
message = ncread("sweep.h5", "/failures/message");
printf("%s\n", strtrim(strrep(message(:, 1)', char(0), "")));
)"),
            "[10.5 20.25 30] of cases [1 2 3]\nit stood still\n");
}

}  // namespace
}  // namespace dullcast::storage
