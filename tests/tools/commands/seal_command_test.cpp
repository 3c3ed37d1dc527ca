#include <gtest/gtest.h>

#include <filesystem>

#include "tools/commands/program.hpp"

namespace dullcast::commands {
namespace {

using testing::Said;
using testing::say;
using testing::Scratch;
using testing::text_of;
using testing::word;

/// A file of format 1.0 that its program ended with a checksum.
std::string shipped_result() {
  return std::string(DULLCAST_SOURCE_DIR) + "/tests/engine/storage/format_1_0.h5";
}

TEST(SealCommand, AFileWithoutAChecksumGetsACopyWithTheOneItHad) {
  const Scratch scratch;
  const std::string whole = text_of(shipped_result());
  const std::string bare = scratch.write("bare.h5", whole.substr(0, whole.size() - 16));
  const std::string sealed = (scratch / "sealed.h5").string();
  const Said said = say("seal " + word(bare) + " -o " + word(sealed));
  EXPECT_EQ(said.code, 0) << said.err;
  EXPECT_EQ(said.out, sealed + ": a dullcast run, read through and ended with a checksum\n");
  EXPECT_TRUE(text_of(sealed) == whole);
}

TEST(SealCommand, WhatItRefusesIsOneSentenceAndNoFile) {
  const Scratch scratch;
  const std::string whole = text_of(shipped_result());
  const std::string copy = (scratch / "copy.h5").string();
  const auto refused = [&](const std::string& file, const std::string& why) {
    const Said said = say("seal " + word(file) + " -o " + word(copy));
    EXPECT_EQ(said.code, 4) << said.err;
    EXPECT_EQ(said.err, "dullcast: " + file + ": " + why + "\n");
    EXPECT_FALSE(std::filesystem::exists(copy));
  };
  refused(shipped_result(), "this file ends with its checksum already, and needs no other");
  std::string wrong = whole;
  wrong[5000] = static_cast<char>(wrong[5000] ^ 1);
  refused(scratch.write("wrong.h5", wrong),
          "this file is damaged: its bytes do not agree with the checksum at its end, so no other is "
          "written; copy "
          "it anew");
  refused(scratch.write("text.h5", "a text\n"),
          "this is not a dullcast run, sweep or shop: it is not an HDF5 file");
  const std::string cut = scratch.write("cut.h5", whole.substr(0, whole.size() / 2));
  refused(cut, "this result is damaged: HDF5 cannot open it; copy it anew");
  refused("/dev/zero", "this is not an ordinary file");
}

}  // namespace
}  // namespace dullcast::commands
