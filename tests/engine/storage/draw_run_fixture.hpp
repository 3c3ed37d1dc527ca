#pragma once

#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "engine/storage/made_up_run.hpp"
#include "engine/storage/write_result.hpp"

namespace dullcast::storage {

/// A folder with a made-up result, and tools/draw-run at work in it.
class DrawRun : public testing::Test {
 protected:
  void SetUp() override {
    write_result(folder / "run.h5", made_up::scenario(18), made_up::plain_outcome(18, 250));
  }

  struct Answer {
    int status;
    std::string said;
  };
  Answer draw(const std::string& arguments) const {
    const std::string command = "cd '" + folder.path().string() + "' && '" + DULLCAST_SOURCE_DIR +
                                "/tools/draw-run' " + arguments + " > said.txt 2>&1";
    const int status = std::system(command.c_str());
    std::ostringstream said;
    said << std::ifstream(folder / "said.txt").rdbuf();
    std::filesystem::remove(folder / "said.txt");
    return {status, said.str()};
  }

  /// Width and height from a PNG's header (ISO/IEC 15948, clause 11.2.2: big-endian at bytes 16 and 20).
  static std::pair<unsigned, unsigned> png_size(const std::vector<std::byte>& bytes) {
    const auto number = [&](std::size_t at) {
      unsigned value = 0;
      for (std::size_t k = 0; k < 4; ++k) value = value << 8 | std::to_integer<unsigned>(bytes.at(at + k));
      return value;
    };
    EXPECT_EQ(number(0), 0x89504e47U);
    return {number(16), number(20)};
  }

  made_up::Folder folder;
};

}  // namespace dullcast::storage
