#include <gtest/gtest.h>

#include "tools/commands/program.hpp"

/// What the commands make of files that earlier programs wrote: format_1_1.h5 to format_1_4.h5 are one small
/// well, and sweep_format_1_0.h5 a small sweep over it, each drilled by the last commit before the next
/// version of its format.
namespace dullcast::commands {
namespace {

namespace fs = std::filesystem;
using testing::has;
using testing::Said;
using testing::say;
using testing::say_to;
using testing::Scratch;
using testing::text_of;
using testing::word;

/// Unpacks one of them into a folder and says where.
std::string unpacked(const Scratch& scratch, const std::string& name) {
  const fs::path kept = fs::path(DULLCAST_SOURCE_DIR) / "tests/engine/storage" / (name + ".gz");
  const Said said = say_to("gzip", "-dc " + word(kept.string()));
  EXPECT_EQ(said.code, 0) << said.err;
  return scratch.write(name, said.out);
}

class EarlierResults : public ::testing::TestWithParam<int> {
 protected:
  Scratch scratch;
  std::string file = unpacked(scratch, "format_1_" + std::to_string(GetParam()) + ".h5");
};

TEST_P(EarlierResults, AreWholeAndToldByTheirFormat) {
  const Said said = say("check " + file);
  EXPECT_EQ(said.code, 0) << said.out << said.err;
  EXPECT_TRUE(has(said.out, "\"a small well\", format 1." + std::to_string(GetParam()) + ": whole"))
      << said.out;
}

TEST_P(EarlierResults, AreToldAgainWithoutWhatTheyLack) {
  const Said brief = say("show --brief " + file);
  EXPECT_EQ(brief.code, 0) << brief.err;
  EXPECT_TRUE(has(brief.out, "a small well")) << brief.out;
  EXPECT_TRUE(has(brief.out, "not in 1 hole")) << brief.out;
  EXPECT_TRUE(has(brief.out, "hottest")) << brief.out;
  const Said whole = say("show " + file);
  EXPECT_EQ(whole.code, 0) << whole.err;
  for (const char* never : {"nan", "inf ", "-0 "}) EXPECT_FALSE(has(whole.out, never)) << whole.out;
}

TEST_P(EarlierResults, AreDrawnBesideTodays) {
  const std::string well = scratch.write("well.yaml", testing::small_well),
                    today = (scratch / "today.h5").string(), page = (scratch / "page.html").string();
  ASSERT_EQ(say("run --central-only " + well + " -o " + today).code, 0);
  const Said report = say("report " + file + " " + today + " -o " + page);
  EXPECT_EQ(report.code, 0) << report.err;
  EXPECT_TRUE(has(text_of(page), "a small well"));
  const Said compared = say("compare --brief " + file + " " + today);
  EXPECT_EQ(compared.code, 0) << compared.err;
  EXPECT_TRUE(has(compared.out, "sandstone") || has(compared.out, "hottest")) << compared.out;
}

TEST_P(EarlierResults, AreSealedAnew) {
  const std::string bytes = text_of(file);
  ASSERT_GT(bytes.size(), 1000u);
  const std::string open = scratch.write("open.h5", bytes.substr(0, bytes.size() - 16)),
                    sealed = (scratch / "sealed.h5").string();
  EXPECT_NE(say("show " + open).code, 0);
  const Said seal = say("seal " + open + " -o " + sealed);
  EXPECT_EQ(seal.code, 0) << seal.err;
  const Said before = say("show " + file), after = say("show " + sealed);
  EXPECT_EQ(after.code, 0) << after.err;
  const auto without_names = [](const std::string& text) { return text.substr(text.find('\n')); };
  EXPECT_EQ(without_names(after.out), without_names(before.out));
}

TEST_P(EarlierResults, AreGoneOnFrom) {
  const std::string well = scratch.write("well.yaml", testing::small_well);
  const Said said = say("run --central-only --brief " + well + " -o " + (scratch / "next.h5").string() +
                        " --set bit.continues=" + file);
  EXPECT_EQ(said.code, 0) << said.err;
}

INSTANTIATE_TEST_SUITE_P(OfFormat1, EarlierResults, ::testing::Values(1, 2, 3, 4));

TEST(EarlierSweeps, AreReadAndTheirFindingsTold) {
  const Scratch scratch;
  const std::string sweep = unpacked(scratch, "sweep_format_1_0.h5");
  const Said check = say("check " + sweep);
  EXPECT_EQ(check.code, 0) << check.out;
  EXPECT_TRUE(has(check.out, "the result of a sweep, \"a small sweep\", 6 runs, 0 of them failed"))
      << check.out;
  const Said findings = say("findings --brief " + sweep);
  EXPECT_EQ(findings.code, 0) << findings.err;
  EXPECT_TRUE(has(findings.out, "a small sweep")) << findings.out;
}

TEST(EarlierSweeps, CasesOfAnotherLibraryAreRefusedInASentence) {
  // The file carries the library of its day, which lacks numbers that the engine has since then.
  const Scratch scratch;
  const Said said = say("run --from " + unpacked(scratch, "sweep_format_1_0.h5") + " --case 2 -o " +
                        (scratch / "case.h5").string());
  EXPECT_EQ(said.code, 3) << said.out << said.err;
  EXPECT_TRUE(has(said.err, "models.yaml") && has(said.err, "is missing")) << said.err;
}

}  // namespace
}  // namespace dullcast::commands
