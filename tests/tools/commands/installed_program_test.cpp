#include <gtest/gtest.h>

#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

namespace fs = std::filesystem;
using testing::has;
using testing::Said;
using testing::say_to;
using testing::Scratch;
using testing::word;

TEST(InstalledProgram, ReadsItsOwnLibraryWhereverItStands) {
  const Scratch scratch;
  const Said laid = say_to("cmake", "--install " + word(DULLCAST_BINARY_DIR) +
                                        " --component program --prefix " + word((scratch / "here").string()));
  ASSERT_EQ(laid.code, 0) << laid.err;
  // Moved as a whole: nothing in it knows where it was.
  fs::rename(scratch / "here", scratch / "there");
  const fs::path there = scratch / "there";
  const std::string program = (there / "bin/dullcast").string();
  const std::string well =
      scratch.write("well.yaml", testing::text_of(there / "share/dullcast/scenarios/one_shallow_well.yaml"));
  const Said good = say_to(program, "check " + word(well));
  EXPECT_EQ(good.code, 0) << good.out << good.err;
  // That it is this library which counts, and not the source tree's, shows when something in it is wrong.
  std::ofstream(there / "share/dullcast/library/grades.yaml", std::ios::app)
      << "premium_of_ours: {like: nothing}\n";
  const Said bad = say_to(program, "check " + word(well));
  EXPECT_EQ(bad.code, 3) << bad.out;
  EXPECT_TRUE(has(bad.out, (there / "share/dullcast/library/grades.yaml").string())) << bad.out;
  for (const char* file :
       {"share/man/man1/dullcast.1.gz", "share/bash-completion/completions/dullcast",
        "share/zsh/vendor-completions/_dullcast", "share/doc/dullcast/scenarios/README.md"})
    EXPECT_TRUE(fs::exists(there / file)) << file;
  EXPECT_FALSE(fs::exists(there / "include"));
}

}  // namespace
}  // namespace dullcast::commands
