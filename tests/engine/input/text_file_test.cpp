#include "engine/input/text_file.hpp"

#include <gtest/gtest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>

#include "engine/input/reading.hpp"

namespace dullcast::input {
namespace {

namespace fs = std::filesystem;
using testing::Messages;

/// What is said of a file; empty when it is read.
Messages said_of(const std::string& path, std::size_t most = most_scenario_bytes) {
  try {
    read_text_file(path, most);
  } catch (const ScenarioErrors& error) {
    return error.messages();
  }
  return {};
}

/// A folder of this test's own.
struct Folder {
  fs::path path = fs::temp_directory_path() / ("text_file_test." + std::to_string(::getpid()));
  Folder() { fs::create_directories(path); }
  ~Folder() { fs::remove_all(path); }
};

TEST(TextFile, WhatIsNotThereSaysSo) {
  const std::string missing = std::string(DULLCAST_BINARY_DIR) + "/no_such.yaml";
  EXPECT_EQ(said_of(missing),
            Messages{missing + ": cannot be read; check its name and that it is a readable file"});
}

TEST(TextFile, FoldersPipesAndDevicesAreRefusedWithoutWaiting) {
  const Folder folder;
  const std::string pipe = (folder.path / "pipe.yaml").string();
  ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
  const std::string refused = "; name an ordinary file";
  EXPECT_EQ(said_of(folder.path.string()),
            Messages{folder.path.string() + ": cannot be read: it is a folder" + refused});
  EXPECT_EQ(said_of(pipe), Messages{pipe + ": cannot be read: it is a pipe" + refused});
  EXPECT_EQ(said_of("/dev/zero"), Messages{"/dev/zero: cannot be read: it is a device" + refused});
}

TEST(TextFile, AFileIsReadWholeUpToTheMostThatIsAllowed) {
  const Folder folder;
  const std::string path = (folder.path / "large.yaml").string();
  const std::string text(3 << 20, 'x');
  std::ofstream(path) << text;
  EXPECT_EQ(read_text_file(path, 3 << 20), text);
  std::ofstream(path, std::ios::app) << "y";
  EXPECT_EQ(said_of(path, 3 << 20),
            Messages{path + ": is larger than 3 MiB, more than any file of its kind"});
  // One of 500 GB, of which nothing is on the disk and nothing may be read.
  fs::resize_file(path, std::uintmax_t{500} << 30);
  EXPECT_EQ(said_of(path), Messages{path + ": is larger than 4 MiB, more than any file of its kind"});
}

}  // namespace
}  // namespace dullcast::input
