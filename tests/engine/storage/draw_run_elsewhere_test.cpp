#include <sys/stat.h>

#include <algorithm>
#include <fstream>
#include <sstream>

#include "engine/base/whole_file.hpp"
#include "engine/storage/changed_file.hpp"
#include "engine/storage/draw_run_fixture.hpp"

namespace dullcast::storage {
namespace {

TEST_F(DrawRun, AFileFromElsewhereIsOneSentenceInSecondsAndNoPicture) {
  const auto said = [&](const std::string& file) {
    const Answer answer = draw(file + " -o picture.png");
    EXPECT_NE(answer.status, 0);
    EXPECT_FALSE(std::filesystem::exists(folder / "picture.png"));
    EXPECT_EQ(std::count(answer.said.begin(), answer.said.end(), '\n'), 1) << answer.said;
    return answer.said;
  };
  ASSERT_EQ(::mkfifo((folder / "pipe").c_str(), 0600), 0);
  EXPECT_EQ(said("pipe"), "draw-run: pipe: this is not an ordinary file\n");
  EXPECT_EQ(said("/dev/zero"), "draw-run: /dev/zero: this is not an ordinary file\n");
  base::write_whole_file(folder / "empty.h5", {});
  EXPECT_EQ(said("empty.h5"), "draw-run: empty.h5: this file is empty\n");
  const std::vector<std::byte> whole = base::read_whole_file(folder / "run.h5");
  std::vector<std::byte> bytes = whole;
  bytes.resize(bytes.size() / 2);
  base::write_whole_file(folder / "cut.h5", bytes);
  EXPECT_EQ(
      said("cut.h5"),
      "draw-run: cut.h5: this file has no checksum at its end: it is cut short (copy it anew, or run its "
      "scenario again), or another program wrote it (dullcast seal writes a copy with a checksum)\n");
  bytes = whole;
  bytes[3000] ^= std::byte{1};
  base::write_whole_file(folder / "wrong.h5", bytes);
  EXPECT_EQ(
      said("wrong.h5"),
      "draw-run: wrong.h5: this result is damaged: its bytes do not agree with the checksum at its end; copy "
      "it anew, or run its scenario again\n");
  // Zeros over most of it, under a checksum that holds.
  std::fill(bytes.begin() + 512, bytes.end() - 16, std::byte{0});
  base::write_whole_file(folder / "made.h5", bytes);
  changed_file::seal(folder / "made.h5");
  said("made.h5");
  const std::string nasty = "\x1b]0;gone\a";
  changed_file::change(folder / "run.h5", [&](H5::H5File& file) {
    file.openGroup("/").removeAttr("file_type");
    const H5::StrType type(H5::PredType::C_S1, nasty.size());
    file.openGroup("/").createAttribute("file_type", type, H5::DataSpace(H5S_SCALAR)).write(type, nasty);
  });
  EXPECT_EQ(said("run.h5"), "draw-run: run.h5: this is not a dullcast run but a '\\x1b]0;gone\\x07'\n");
}

/// What makes HDF5 crash, or turn round for ever, is met by the process that looks after the drawing.
TEST_F(DrawRun, ACrashOrAnEndlessLoopBelowIsOneSentence) {
  const auto said = [&](const std::string& work) {
    std::ofstream(folder / "look.py") << "import os, signal, sys\nsys.dont_write_bytecode = True\n"
                                         "sys.path.insert(0, '" DULLCAST_SOURCE_DIR
                                         "/tools')\n"
                                         "from drawing import guarded\nguarded.PROCESSOR_TIME = 1\n"
                                         "def work():\n    "
                                      << work << "\nguarded.guarded('draw-run', 'run.h5', work)\n";
    const std::string command =
        "cd '" + folder.path().string() + "' && /usr/bin/python3 look.py > said.txt 2>&1";
    EXPECT_NE(std::system(command.c_str()), 0);
    std::ostringstream text;
    text << std::ifstream(folder / "said.txt").rdbuf();
    return text.str();
  };
  const std::string damaged = "draw-run: run.h5: this result is damaged: ";
  const std::string way_out = "; copy it anew, or run its scenario again\n";
  EXPECT_EQ(said("os.kill(os.getpid(), signal.SIGSEGV)"), damaged + "HDF5 broke over it" + way_out);
  EXPECT_EQ(said("any(iter(int, 1))"), damaged + "drawing it takes far too long" + way_out);
}

}  // namespace
}  // namespace dullcast::storage
