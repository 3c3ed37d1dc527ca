#include <gtest/gtest.h>
#include <unistd.h>

#include <csignal>
#include <filesystem>
#include <fstream>
#include <functional>
#include <set>
#include <string>
#include <vector>

#include "engine/base/file_error.hpp"
#include "engine/storage/changed_file.hpp"
#include "engine/storage/made_up_run.hpp"
#include "engine/storage/sweep_part_file.hpp"

namespace dullcast::storage {
namespace {

/// A part's first case and values in words, or what is said of a part that is none.
std::string told(const std::function<SweepPart()>& read) {
  try {
    const SweepPart part = read();
    std::string words = part.fingerprint + " from " + std::to_string(part.first_case);
    for (const double value : part.values.reshaped()) words += " " + std::to_string(value);
    for (const SweepFailure& failure : part.failures) words += " " + failure.message;
    return words;
  } catch (const base::FileError& error) {
    return error.what();
  }
}

/// More parts than one child reads.
struct SeriesOfParts : testing::Test {
  static constexpr std::size_t count = 80;
  SeriesOfParts() {
    for (std::size_t k = 0; k < count; ++k) {
      paths.push_back(folder / ("part_" + std::to_string(k) + ".h5"));
      SweepPart part;
      part.fingerprint = "abcd";
      part.first_case = static_cast<long>(4 * k + 1);
      part.values.setConstant(4, 2, 0.5 + static_cast<double>(k));
      if (k % 3 == 0) part.failures = {{part.first_case, "it could not be run"}};
      write_sweep_part(paths.back(), part);
    }
  }
  made_up::Folder folder;
  std::vector<std::string> paths;
};

TEST_F(SeriesOfParts, TellsOfEveryPartWhatOneReadByItselfTells) {
  std::fstream(paths[20], std::ios::in | std::ios::out | std::ios::binary).seekp(900).put('\x5a');
  std::filesystem::remove(paths[21]);
  std::ofstream(paths[30]) << "no file of HDF5";
  changed_file::change(paths[40], [](H5::H5File& file) { file.unlink("values"); });
  changed_file::change(paths[41], [](H5::H5File& file) { file.link(H5G_LINK_SOFT, "/values", "other"); });
  changed_file::change(paths[79], [](H5::H5File& file) { file.unlink("first_case"); });
  SweepPartSeries series(paths);
  std::size_t wrong = 0;
  for (const std::size_t ends : {count, std::size_t{50}}) {  // a second time over the first of them
    for (std::size_t k = 0; k < ends; ++k) {
      const std::string alone = told([&] { return read_sweep_part(paths[k]); });
      EXPECT_EQ(told([&] { return series.read(k); }), alone);
      if (ends == count && !alone.starts_with("abcd from")) ++wrong;
    }
  }
  EXPECT_EQ(wrong, 6u);
}

TEST_F(SeriesOfParts, ReadsInAnyOrder) {
  SweepPartSeries series(paths);
  for (const std::size_t k : {7, 8, 3, 79, 0, 1, 2, 2, 64, 63})
    EXPECT_EQ(series.read(k).first_case, static_cast<long>(4 * k + 1));
}

TEST_F(SeriesOfParts, AChildThatIsKilledTakesNoFileWithIt) {
  const std::string mark = folder / "killed", counted = folder / "children";
  StoredFileSeries series(paths, part_file, [&](const std::string& dataset) {
    if (dataset != "/values") return true;
    std::ofstream(counted, std::ios::app) << ::getpid() << "\n";
    if (std::filesystem::file_size(counted) > 300 && !std::filesystem::exists(mark)) {
      std::ofstream(mark) << "killed";
      ::kill(::getpid(), SIGKILL);
    }
    return true;
  });
  for (std::size_t k = 0; k < count; ++k)
    EXPECT_EQ(told([&] { return sweep_part_of(series.read(k), paths[k]); }),
              told([&] { return read_sweep_part(paths[k]); }));
  EXPECT_TRUE(std::filesystem::exists(mark));
  // The series as it goes, the part that its first child was killed over, and the series from there.
  std::set<std::string> children;
  std::ifstream pids(counted);
  for (std::string pid; pids >> pid;) children.insert(pid);
  EXPECT_LE(children.size(), 6u);
  EXPECT_GE(children.size(), 3u);
}

}  // namespace
}  // namespace dullcast::storage
