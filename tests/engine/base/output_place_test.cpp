#include "engine/base/output_place.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "engine/base/file_error.hpp"
#include "tools/commands/program.hpp"

namespace dullcast::base {
namespace {

namespace fs = std::filesystem;
using testing::Scratch;

/// Why a place is refused; empty when it is not.
std::string refusal(const OutputPlace& place, const std::vector<std::string>& inputs) {
  try {
    check_output_place(place, inputs);
  } catch (const FileError& error) {
    return error.reason();
  }
  return {};
}

bool begins(const std::string& text, const std::string& start) {
  return text.rfind(start, 0) == 0;
}

TEST(OutputPlace, AFreshNameInAFolderIsFineAndNothingIsLeft) {
  const Scratch scratch;
  EXPECT_EQ(refusal({(scratch / "new.h5").string()}, {}), "");
  EXPECT_TRUE(fs::is_empty(scratch.path()));
}

TEST(OutputPlace, WhatStandsThereGoesOnlyWhenAsked) {
  const Scratch scratch;
  const std::string file = scratch.write("old.h5", "old");
  EXPECT_TRUE(begins(refusal({file}, {}), "there is a file of this name already; --replace"));
  EXPECT_EQ(refusal({file, true}, {}), "");
  EXPECT_EQ(testing::text_of(file), "old");
  fs::create_symlink(file, scratch / "link.h5");
  EXPECT_TRUE(begins(refusal({(scratch / "link.h5").string()}, {}), "there is a file of this name already"));
}

TEST(OutputPlace, AnInputIsRefusedByEveryNameItHas) {
  const Scratch scratch;
  const std::string input = scratch.write("in.yaml", "x");
  fs::create_symlink("in.yaml", scratch / "soft");
  fs::create_hard_link(input, scratch / "hard");
  fs::create_directory(scratch / "sub");
  for (const std::string name : {"in.yaml", "soft", "hard", "sub/../in.yaml"})
    EXPECT_TRUE(begins(refusal({(scratch / name).string(), true}, {input}), "this is what the command reads"))
        << name;
  // A link to an input that is not there yet is still a name of it.
  fs::create_symlink("later.h5", scratch / "to_later");
  EXPECT_TRUE(begins(refusal({(scratch / "to_later").string(), true}, {(scratch / "later.h5").string()}),
                     "this is what the command reads"));
  // A folder that is read, as a library is, takes no output.
  EXPECT_TRUE(
      begins(refusal({(scratch / "sub/out.h5").string()}, {(scratch / "sub").string()}), "this lies in "));
  EXPECT_EQ(refusal({(scratch / "out.h5").string()}, {(scratch / "sub").string(), ""}), "");
}

TEST(OutputPlace, FoldersDevicesAndMissingFoldersAreToldApart) {
  const Scratch scratch;
  EXPECT_TRUE(begins(refusal({scratch.path().string(), true}, {}), "this is a folder"));
  EXPECT_TRUE(begins(refusal({(scratch / "none/out.h5").string()}, {}), "there is no folder"));
  EXPECT_TRUE(begins(refusal({"/dev/null", true}, {}), "this is not an ordinary file"));
}

TEST(OutputPlace, AFolderOfTablesKeepsToTheSameRule) {
  const Scratch scratch;
  const std::string folder = (scratch / "tables").string();
  const std::vector<std::string> names = {"lives.csv"};
  EXPECT_NO_THROW(check_output_folder({folder}, names, {}));
  fs::create_directory(folder);
  EXPECT_NO_THROW(check_output_folder({folder}, names, {}));
  const std::string input = scratch.write("tables/lives.csv", "x");
  EXPECT_THROW(check_output_folder({folder}, names, {}), FileError);
  EXPECT_NO_THROW(check_output_folder({folder, true}, names, {}));
  EXPECT_THROW(check_output_folder({folder, true}, names, {input}), FileError);
  EXPECT_THROW(check_output_folder({input, true}, names, {}), FileError);
  EXPECT_THROW(check_output_folder({(scratch / "none/tables").string()}, names, {}), FileError);
}

TEST(OutputPlace, TextIsWrittenWholeOrNotAtAll) {
  const Scratch scratch;
  write_text((scratch / "t.csv").string(), "a,b\n");
  EXPECT_EQ(testing::text_of(scratch / "t.csv"), "a,b\n");
  EXPECT_THROW(write_text((scratch / "none/t.csv").string(), "a"), FileError);
}

}  // namespace
}  // namespace dullcast::base
