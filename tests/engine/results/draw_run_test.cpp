#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "engine/results/made_up_run.hpp"
#include "engine/results/whole_file.hpp"
#include "engine/results/write_result.hpp"

namespace dullcast {
namespace {

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

TEST_F(DrawRun, APictureIsASmallPngAndTheSameEachTime) {
  const Answer answer = draw("run.h5");
  EXPECT_EQ(answer.status, 0) << answer.said;
  EXPECT_EQ(answer.said, "drawn: run.png\n");
  const std::vector<std::byte> picture = read_whole_file(folder / "run.png");
  const auto [width, height] = png_size(picture);
  EXPECT_GT(width, 1000U);
  EXPECT_GT(height, 600U);
  EXPECT_LT(picture.size(), 150'000U);
  EXPECT_EQ(draw("run.h5 -o again.png").status, 0);
  EXPECT_TRUE(picture == read_whole_file(folder / "again.png"));
  EXPECT_EQ(draw("run.h5 -o other.png --hole 1").status, 0);
  EXPECT_FALSE(picture == read_whole_file(folder / "other.png"));
}

TEST_F(DrawRun, TroubleIsOneSentenceAndNoPicture) {
  std::ofstream(folder / "text.h5") << "not a result";
  const auto said = [&](const std::string& arguments) {
    const Answer answer = draw(arguments);
    EXPECT_NE(answer.status, 0);
    return answer.said;
  };
  EXPECT_EQ(said("none.h5"), "draw-run: none.h5: there is no such file\n");
  EXPECT_EQ(said("."), "draw-run: .: this is a folder; give the .h5 file of one run\n");
  EXPECT_EQ(said("text.h5").find("draw-run: text.h5: cannot be read as a result ("), 0U);
  EXPECT_EQ(said("run.h5 --hole 9"), "draw-run: run.h5: there is no hole 9; the run drilled holes 1 to 3\n");
  EXPECT_EQ(said("run.h5 -o no/such.png"),
            "draw-run: no/such.png: cannot write the picture (No such file or directory)\n");
  EXPECT_EQ(folder.names(), (std::vector<std::string>{"run.h5", "text.h5"}));
}

TEST_F(DrawRun, ARunWithoutLayersHolesOrMilestonesIsDrawn) {
  RunOutcome outcome = made_up::plain_outcome(1, 1);
  outcome.passages.clear();
  outcome.holes.clear();
  outcome.events.clear();
  outcome.rework_due.reset();
  outcome.beyond_repair.reset();
  write_result(folder / "short.h5", made_up::scenario(1), outcome);
  const Answer answer = draw("short.h5");
  EXPECT_EQ(answer.status, 0) << answer.said;
  EXPECT_EQ(answer.said, "drawn: short.png\n");
}

}  // namespace
}  // namespace dullcast
