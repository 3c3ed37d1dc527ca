#include <gtest/gtest.h>

#include <fstream>

#include "support/sanitized.hpp"
#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

namespace fs = std::filesystem;
using testing::has;
using testing::Said;
using testing::say_to;
using testing::Scratch;
using testing::text_of;
using testing::word;

TEST(InstalledProgram, ReadsItsOwnLibraryWhereverItStands) {
  if (testing::sanitized) GTEST_SKIP() << "nothing is installed from a build under the sanitizers";
  const Scratch scratch;
  const Said laid = say_to("cmake", "--install " + word(DULLCAST_BINARY_DIR) +
                                        " --component program --prefix " + word((scratch / "here").string()));
  ASSERT_EQ(laid.code, 0) << laid.err;
  // Moved as a whole: nothing in it knows where it was.
  fs::rename(scratch / "here", scratch / "there");
  const fs::path there = scratch / "there";
  const std::string program = (there / "bin/dullcast").string();
  const std::string well =
      scratch.write("well.yaml", text_of(there / "share/dullcast/scenarios/one_shallow_well.yaml"));
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

// That it compiles and runs is for tests/long/bare-machine.
TEST(InstalledLibraries, AreFoundByTheExampleWithEverythingThatTheyNeed) {
  if (testing::sanitized) GTEST_SKIP() << "nothing is installed from a build under the sanitizers";
  const Scratch scratch;
  const std::string there = (scratch / "there").string();
  for (const char* component : {"program", "development"}) {
    const Said laid = say_to("cmake", "--install " + word(DULLCAST_BINARY_DIR) + " --component " + component +
                                          " --prefix " + word(there));
    ASSERT_EQ(laid.code, 0) << laid.err;
  }
  for (const char* header :
       {"models/cutting/bit_forces.hpp", "engine/simulation/run.hpp", "engine/shop/run_shop.hpp"})
    EXPECT_TRUE(fs::exists(fs::path(there) / "include/dullcast" / header)) << header;
  const Said found =
      say_to("cmake", "-G Ninja -S " + word(there + "/share/dullcast/examples/drill_a_scenario") + " -B " +
                          word((scratch / "build").string()) + " -DCMAKE_PREFIX_PATH=" + word(there));
  EXPECT_EQ(found.code, 0) << found.out << found.err;
  const std::string rules = text_of(scratch / "build/build.ninja");
  for (const char* library : {"libdullcast_simulation.a", "libdullcast_input.a", "libdullcast_shop.a"})
    EXPECT_TRUE(has(rules, there + "/lib") && has(rules, library)) << library << " in " << rules;
}

}  // namespace
}  // namespace dullcast::commands
