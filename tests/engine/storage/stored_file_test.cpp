#include "engine/storage/stored_file.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <csignal>
#include <fstream>

#include "engine/base/file_error.hpp"
#include "engine/storage/made_up_run.hpp"
#include "engine/storage/write_result.hpp"

namespace dullcast::storage {
namespace {

/// A small run, and what is asked in the process that reads it.
struct StoredFile : testing::Test {
  StoredFile() { write_result(path, made_up::scenario(3), made_up::plain_outcome(3, 4)); }
  made_up::Folder folder;
  std::string path = folder / "run.h5", mark = folder / "killed";
};

TEST_F(StoredFile, AReaderThatSomebodyKilledOnceIsTriedAgain) {
  const auto killed_once = [&](const std::string&) {
    if (!std::ifstream(mark)) {
      std::ofstream(mark) << "killed";
      ::kill(::getpid(), SIGKILL);
    }
    return true;
  };
  EXPECT_FALSE(read_stored_file(path, run_file, Seal::required, killed_once).groups.empty());
}

TEST_F(StoredFile, ReadersThatAreKilledSayNothingOfTheFile) {
  const auto killed_ever = [](const std::string&) { return ::kill(::getpid(), SIGKILL) == 0; };
  try {
    read_stored_file(path, run_file, Seal::required, killed_ever);
    FAIL();
  } catch (const base::FileError& error) {
    const std::string what = error.what();
    EXPECT_NE(what.find("was killed, twice"), std::string::npos) << what;
    EXPECT_EQ(what.find("damaged"), std::string::npos) << what;
  }
}

}  // namespace
}  // namespace dullcast::storage
