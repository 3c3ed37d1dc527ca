#include "engine/sweep/parts_folder.hpp"

#include <gtest/gtest.h>

#include <atomic>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <string>
#include <thread>

#include "engine/base/file_error.hpp"
#include "engine/sweep/small_sweep.hpp"

namespace dullcast::sweep {
namespace {

namespace fs = std::filesystem;

TEST(PartsFolder, NobodyTakesTheLockOfAFolderThatIsBeingRemoved) {
  const testing::OwnFolder scratch;
  const PartsFolder parts(scratch / "sweep.h5.parts");
  for (int round = 0; round < 5; ++round) {
    auto lock = std::make_unique<FolderLock>(parts.path());
    for (long k = 0; k < 3000; k += 3) {
      const std::string path = parts.part_path(k);
      fs::create_directories(fs::path(path).parent_path());
      std::ofstream(path) << "a part";
    }
    std::atomic<bool> ready = false;
    std::thread first([&] {
      ready = true;
      parts.remove();
    });
    while (!ready) std::this_thread::yield();
    for (;;) {
      try {
        const FolderLock other(parts.path());
        // The folder is this one's own, made anew.
        EXPECT_EQ(std::distance(fs::directory_iterator(parts.path()), fs::directory_iterator()), 1);
        break;
      } catch (const base::FileError& error) {
        EXPECT_NE(std::string(error.what()).find("another dullcast"), std::string::npos) << error.what();
      }
    }
    first.join();
    lock.reset();
    fs::remove_all(parts.path());
  }
}

}  // namespace
}  // namespace dullcast::sweep
