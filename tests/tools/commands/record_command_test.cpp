#include <gtest/gtest.h>

#include "tools/commands/program.hpp"

// dullcast record, answered by a pipe.
namespace dullcast::commands {
namespace {

namespace fs = std::filesystem;
using testing::has;
using testing::Said;
using testing::say;
using testing::say_to;
using testing::Scratch;
using testing::small_well;
using testing::text_of;
using testing::word;

/// What the program says when these lines are its input.
Said answered(const Scratch& scratch, const std::string& words, const std::string& lines) {
  const std::string input = scratch.write("answers.txt", lines);
  return say_to("sh", "-c '" + word(DULLCAST_PROGRAM) + " " + words + " < " + word(input) + "'");
}

/// So many empty answers.
std::string skip(int questions) {
  return std::string(static_cast<std::size_t>(questions), '\n');
}

TEST(Record, AsksOneQuestionAtATimeAndAgainWhereAnAnswerCannotBeUsed) {
  const Scratch scratch;
  scratch.write("well.yaml", small_well);
  const std::string shelf = (scratch / "shelf.csv").string();
  const Said said =
      answered(scratch, "record " + word(shelf),
               "none.yaml\nwell.yaml\nK-1\n17.4.31\n2031-04-17\npor\npoor\n3\n"
               "shale 24 m; sandston 12 m\nshale 24 m; sandstone 12 m\n4500\n4500 lbf\n\n60 gal/min\n"
               "1\nat least 2\n\n2\n" +
                   skip(8) + "look again\nyes\n");
  ASSERT_EQ(said.code, 0) << said.out << said.err;
  for (const char* words :
       {"a new shelf", "none.yaml: cannot be read", "\"17.4.31\" is no day", "did you mean poor?",
        "did you mean sandstone?", "\"4500\" has no unit", "such as 65 gal/min?", "Write it? (yes or no)",
        "  outer_grade       at least 2\n", "which has 1 now"})
    EXPECT_TRUE(has(said.out, words)) << words << "\n" << said.out;
  const std::string table = text_of(shelf);
  EXPECT_TRUE(has(table,
                  "\nK-1,2031-04-17,well.yaml,poor,3,shale 24 m; sandstone 12 m,4500 lbf,,60 gal/min,1,at "
                  "least 2,,,,2,"))
      << table;
  EXPECT_TRUE(has(table, ",look again,\n")) << table;
  EXPECT_EQ(say("check " + shelf).code, 0);
  // A second one, with the scenario of the first, keeps what was there.
  const Said second =
      answered(scratch, "record " + word(shelf),
               "\nK-1\n2031-04-17\n2031-04-18\n" + skip(8) + skip(1) + "1\n" + skip(9) + "yes\n");
  ASSERT_EQ(second.code, 0) << second.out << second.err;
  EXPECT_TRUE(has(second.out, "is a day on which the shelf has a record of \"K-1\" already")) << second.out;
  EXPECT_TRUE(text_of(shelf).starts_with(table + "K-1,2031-04-18,well.yaml,"));
}

TEST(Record, CuttersAreToldInOneLineOrOneByOne) {
  const Scratch scratch;
  scratch.write("well.yaml", small_well);
  const std::string shelf = (scratch / "shelf.yaml").string();
  const std::string options = "record " + word(shelf) + " --brief";
  std::string singly = "one\n0.4 mm\nflat 40 mm\nflat 6 mm\nlost\n" + skip(15);
  const Said one = answered(scratch, options, "well.yaml\nK-1\n" + skip(9) + singly + skip(7) + "yes\n");
  ASSERT_EQ(one.code, 0) << one.out << one.err;
  EXPECT_TRUE(has(one.out, "Cutter 18 of 18")) << one.out;
  EXPECT_TRUE(has(one.out, "\"flat 40 mm\" is longer than the table itself, which is 16 mm across"))
      << one.out;
  EXPECT_FALSE(has(one.out, "How many cutters are lost")) << "they are marked already";
  EXPECT_TRUE(has(text_of(shelf), "    cutters: \"0.4 mm; flat 6 mm; lost; not measured;")) << text_of(shelf);
  std::string all;
  for (int i = 0; i < 17; ++i) all += "0.4 mm; ";
  const Said two =
      answered(scratch, options, "\nK-2\n" + skip(9) + "0.4 mm\n" + all + "chipped\n" + skip(7) + "yes\n");
  ASSERT_EQ(two.code, 0) << two.out << two.err;
  EXPECT_TRUE(has(two.out, "says something of 1, but the bit of ")) << two.out;
  EXPECT_TRUE(has(say("check " + shelf).out, "a shelf of 2 bits: can be used"));
}

TEST(Record, TheEndOfTheInputNoAndEndlessNonsenseWriteNothing) {
  const Scratch scratch;
  scratch.write("well.yaml", small_well);
  const std::string shelf = (scratch / "shelf.csv").string(), options = "record " + word(shelf);
  const Said ended = answered(scratch, options, "well.yaml\nK-1\n2031-04-17\n");
  EXPECT_EQ(ended.code, 3);
  EXPECT_TRUE(has(ended.err, "the input ended before the record was whole: nothing was written"))
      << ended.err;
  const Said unsure = answered(scratch, options, "well.yaml\nK-1\n" + skip(20) + "perhaps\n");
  EXPECT_EQ(unsure.code, 3);
  EXPECT_TRUE(has(unsure.out, "Write it?")) << unsure.out;
  const Said no = answered(scratch, options, "well.yaml\nK-1\n" + skip(20) + "no\n");
  EXPECT_EQ(no.code, 0) << no.err;
  EXPECT_TRUE(has(no.out, "Nothing was written.")) << no.out;
  std::string nonsense;
  for (int i = 0; i < 1000; ++i) nonsense += "what\n";
  EXPECT_EQ(answered(scratch, options, nonsense).code, 3);
  EXPECT_EQ(answered(scratch, options, std::string(1 << 20, 'x')).code, 3);
  EXPECT_EQ(answered(scratch, options, "well.yaml\n" + std::string("a\x1b[2J\0\n", 7) + "K-1\n").code, 3);
  EXPECT_FALSE(fs::exists(shelf));
}

TEST(Record, AnswersGivenBeforehandAreNotAskedFor) {
  const Scratch scratch;
  scratch.write("well.yaml", small_well);
  const std::string shelf = (scratch / "shelf.csv").string(), options = "record " + shelf;
  const Said silent = say(options +
                          " --no-questions --answer bit=K-1 --answer scenario=well.yaml --answer holes=3"
                          " --answer dull_grading=1-2-WT-S-X-I-CT-TD");
  ASSERT_EQ(silent.code, 0) << silent.err;
  EXPECT_FALSE(has(silent.out, "?")) << silent.out;
  const std::string before = text_of(shelf);
  const Said asked = answered(scratch, options + " --answer bit=K-2 --answer inspected=2031-04-17",
                              skip(8) + skip(1) + "1\n" + skip(9) + "yes\n");
  EXPECT_EQ(asked.code, 0) << asked.out << asked.err;
  EXPECT_FALSE(has(asked.out, "Which bit?")) << asked.out;
  EXPECT_TRUE(text_of(shelf).starts_with(before + "K-2,2031-04-17,well.yaml,"));
  const std::string after = text_of(shelf);
  const Said wrong =
      say(options + " --no-questions --answer bit=K-3 --answer flow=60 --answer weigth_on_bit=3");
  EXPECT_EQ(wrong.code, 3);
  EXPECT_TRUE(has(wrong.err, "--answer flow: \"60\" has no unit")) << wrong.err;
  EXPECT_TRUE(has(wrong.err, "--answer weigth_on_bit: is no key of a record; did you mean weight_on_bit?"))
      << wrong.err;
  EXPECT_EQ(say(options + " --no-questions --answer flow=60").code, 3);
  EXPECT_EQ(say(options + " --no-questions --answer inspected=2031-01-01").code, 2);
  EXPECT_EQ(say(options + " --answer flow").code, 2);
  EXPECT_EQ(text_of(shelf), after);
}

TEST(Record, AShelfThatCannotBeUsedOrWrittenIsLeftAsItWas) {
  const Scratch scratch;
  const std::string well = scratch.write("well.yaml", small_well),
                    answers = " --no-questions --answer bit=K-1 --answer scenario=well.yaml";
  EXPECT_EQ(say("record " + well + answers).code, 3);
  EXPECT_EQ(text_of(well), small_well);
  const std::string bad = scratch.write("bad.csv", "bit,scenario,flow\nA,well.yaml,60\n");
  EXPECT_EQ(say("record " + bad + answers).code, 3);
  EXPECT_EQ(text_of(bad), "bit,scenario,flow\nA,well.yaml,60\n");
  EXPECT_EQ(say("record " + (scratch / "shelf.txt").string() + answers).code, 3);
  EXPECT_EQ(say("record " + scratch.path().string() + answers).code, 3);
  EXPECT_EQ(say("record " + (scratch / "nowhere" / "shelf.csv").string() + answers).code, 3)
      << "no scenario there";
  EXPECT_EQ(say("record").code, 2);
}

}  // namespace
}  // namespace dullcast::commands
