#include <H5Cpp.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <functional>

#include "engine/base/file_error.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/storage/failing_disk.hpp"
#include "engine/storage/group_writer.hpp"
#include "engine/storage/hdf5_file_aside.hpp"
#include "engine/storage/hdf5_use.hpp"
#include "engine/storage/made_up_run.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/storage/sweep_part_file.hpp"
#include "engine/storage/write_result.hpp"

namespace dullcast::storage {
namespace {

using At = FailingDisk::At;
using Write = std::function<void(const std::string& path)>;

constexpr long cases = 40;

SweepPart part_of(long first, long count) {
  SweepPart part;
  part.fingerprint = "made up";
  part.first_case = first;
  part.values.resize(count, 2);
  for (long r = 0; r < count; ++r) part.values.row(r) << static_cast<double>(first + r), 1.0 / 3.0;
  for (long number = first; number < first + count; ++number) {
    if (number % 9 == 0) part.failures.push_back({number, "case " + std::to_string(number) + " failed"});
    if (number % 15 == 0)
      part.histories.push_back({number, Eigen::ArrayXXd::Constant(3, 2, static_cast<double>(number))});
  }
  return part;
}

void write_made_up_sweep(const std::string& path, long part_size) {
  SweepHeader header;
  header.table.points = cases / 2;
  header.table.draws = 2;
  header.table.columns.resize(2);
  header.table.columns[0].name = "weight";
  header.table.columns[1].name = "ended_by";
  header.table.columns[1].words = {"last hole", "rework due"};
  for (SweepColumn& column : header.table.columns) column.units = "1";
  header.history_columns.resize(2);
  header.history_columns[0].name = "footage";
  header.history_columns[1].name = "depth";
  for (SweepColumn& column : header.history_columns) column.units = "m";
  header.history_rows = 3;
  header.plan = header.scenario = header.manifest = "made up";
  write_sweep(path, header, (cases + part_size - 1) / part_size,
              [&](long k) { return part_of(k * part_size + 1, std::min(part_size, cases - k * part_size)); });
}

struct Kind {
  std::string name;
  Write write;
};

std::ostream& operator<<(std::ostream& out, const Kind& kind) {
  return out << kind.name;
}

/// Every kind of file that is written.
class FullDisk : public testing::TestWithParam<Kind> {
 protected:
  /// What is said when the file is written to `path`; "written" when nothing is.
  static std::string said_of(const std::string& path) {
    try {
      GetParam().write(path);
    } catch (const base::FileError& error) {
      return error.what();
    }
    return "written";
  }
  static long objects_open() { return H5Fget_obj_count(static_cast<hid_t>(H5F_OBJ_ALL), H5F_OBJ_ALL); }

  void expect_failure(const FailingDisk::At at, int error, long number, const std::string& reason) {
    const long open = objects_open();
    {
      const FailingDisk disk(at, error, number);
      EXPECT_EQ(said_of(path), path + ": cannot write the result: " + reason) << "write " << number;
    }
    EXPECT_EQ(objects_open(), open) << "write " << number;
    EXPECT_EQ(folder.names(), std::vector<std::string>{"old.h5"}) << "write " << number;
    EXPECT_EQ(base::read_whole_file(path), whole) << "write " << number;
  }
  /// About fifty writes of many are tried.
  long stride() const { return 1 + writes / 50; }
  void expect_another_is_written() {
    EXPECT_EQ(said_of(folder / "next.h5"), "written");
    EXPECT_EQ(base::read_whole_file(folder / "next.h5"), whole);
  }

  void SetUp() override {
    const FailingDisk disk(At::nowhere);
    ASSERT_EQ(said_of(path), "written");
    writes = disk.calls().writes;
    whole = base::read_whole_file(path);
  }
  made_up::Folder folder;
  std::string path = folder / "old.h5";
  std::vector<std::byte> whole;
  long writes = 0;
};

TEST_P(FullDisk, AtAnyWriteIsOneSentenceAndLeavesTheOldFileAlone) {
  ASSERT_GT(writes, 5);
  for (long number = 1; number <= writes; number += stride())
    expect_failure(At::writes, ENOSPC, number, "the disk is full");
  expect_another_is_written();
}

TEST_P(FullDisk, AWriteThatFailsOnceIsNotForgottenWhenLaterOnesSucceed) {
  for (long number = 1; number <= writes; number += stride())
    expect_failure(At::one_write, EIO, number, "Input/output error");
  expect_another_is_written();
}

TEST_P(FullDisk, NoticedOnlyAtTheEndIsOneSentenceToo) {
  expect_failure(At::sync, ENOSPC, 1, "the disk is full");
  expect_failure(At::close, EDQUOT, 1, "the disk is full");
  expect_another_is_written();
}

TEST_P(FullDisk, LetsTheProcessEnd) {
  const auto fail_and_end = [&] {
    {
      const FailingDisk disk(At::writes, ENOSPC, writes / 2);
      said_of(path);
    }
    std::exit(0);  // HDF5 closes what is still open
  };
  EXPECT_EXIT(fail_and_end(), testing::ExitedWithCode(0), "");
}

INSTANTIATE_TEST_SUITE_P(
    Of, FullDisk,
    testing::Values(Kind{"run",
                         [](const std::string& path) {
                           write_result(path, made_up::scenario(18), made_up::plain_outcome(18, 300));
                         }},
                    Kind{"part", [](const std::string& path) { write_sweep_part(path, part_of(1, cases)); }},
                    Kind{"sweep", [](const std::string& path) { write_made_up_sweep(path, 10); }}),
    [](const auto& info) { return info.param.name; });

/// Why Hdf5FileAside is there.
TEST(FullDiskOfHdf5, ItsOwnDriverLeavesTheFileOpenAndCrashesWhenTheProcessEnds) {
  unsigned major = 0, minor = 0, release = 0;
  H5get_libversion(&major, &minor, &release);
  if (major != 1 || minor != 10)
    GTEST_SKIP() << "this is known of HDF5 1.10: look again whether it still holds";
  const made_up::Folder folder;
  const auto fail_and_end = [&] {
    {
      const Hdf5Use use;
      const hid_t file = H5Fcreate((folder / "own.h5").c_str(), H5F_ACC_TRUNC, H5P_DEFAULT, H5P_DEFAULT);
      const hid_t group = H5Gcreate2(file, "runs", H5P_DEFAULT, H5P_DEFAULT, H5P_DEFAULT);
      const FailingDisk disk(At::writes, ENOSPC);
      // 2: HDF5 took no notice, so that this test shows nothing.
      if (H5Gclose(group) < 0 || H5Fclose(file) >= 0 || H5Iis_valid(file) <= 0) std::_Exit(2);
    }
    std::exit(0);
  };
  // A signal, or the exit that the sanitizers make of one; the disk has room again by then.
  const auto crashed = [](int status) {
    return WIFSIGNALED(status) || (WIFEXITED(status) && WEXITSTATUS(status) != 0 && WEXITSTATUS(status) != 2);
  };
  EXPECT_EXIT(fail_and_end(), crashed, "");
}

TEST(SweepFile, IsTheSameToTheLastByteWhateverItsParts) {
  const made_up::Folder folder;
  write_made_up_sweep(folder / "whole.h5", cases);
  const std::vector<std::byte> whole = base::read_whole_file(folder / "whole.h5");
  for (const long size : {1, 7, 20}) {
    write_made_up_sweep(folder / "parts.h5", size);
    EXPECT_EQ(base::read_whole_file(folder / "parts.h5"), whole) << size;
  }
}

TEST(SweepFile, HoldsWhatItsPartsHeld) {
  const made_up::Folder folder;
  const std::string path = folder / "sweep.h5";
  write_made_up_sweep(path, 7);
  const SweepTable table = read_sweep(path);
  ASSERT_EQ(table.cases(), cases);
  for (long k = 0; k < cases; ++k) {
    EXPECT_EQ(table.columns.at(0).values[k], static_cast<double>(k + 1));
    EXPECT_EQ(table.columns.at(1).values[k], 1.0 / 3.0);
  }
  ASSERT_EQ(table.failures.size(), 4U);
  EXPECT_EQ(table.failures[3].case_number, 36);
  EXPECT_EQ(table.failures[3].message, "case 36 failed");
  const std::vector<SweepColumn> course = read_sweep_history(path, 30);
  ASSERT_EQ(course.size(), 2U);
  EXPECT_TRUE((course[1].values == Eigen::ArrayXd::Constant(3, 30.0)).all());
}

// What a full disk dropped HDF5 must not ask for again, or it stumbles over its own headers.
TEST(Hdf5FileAside, Hdf5ReadsNothingBackWhileItWrites) {
  const made_up::Folder folder;
  Hdf5FileAside aside(folder / "large.h5");
  const FailingDisk disk(At::nowhere);
  {
    const Hdf5Use use;
    const H5::H5File file = aside.create();
    const GroupWriter root{file.openGroup("/")};
    // More of headers and long texts than HDF5 keeps in memory by default.
    const std::vector<int> numbers(8000, 1);
    for (int k = 0; k < 300; ++k) {
      root.long_attribute("text " + std::to_string(k), std::string(100'000, 'x'));
      root.put({"numbers " + std::to_string(k), "1", "a compact dataset"}, numbers, {{numbers.size(), {}}});
    }
  }
  EXPECT_EQ(disk.calls().reads, 0);
  EXPECT_GT(disk.calls().writes, 0);
}

TEST(Hdf5FileAside, AFileThatIsStillOpenIsNotKept) {
  const made_up::Folder folder;
  Hdf5FileAside aside(folder / "open.h5");
  const Hdf5Use use;
  const H5::H5File file = aside.create();
  EXPECT_THROW(aside.keep(), base::FileError);
}

}  // namespace
}  // namespace dullcast::storage
