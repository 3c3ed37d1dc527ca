#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>

#include "engine/base/whole_file.hpp"
#include "engine/storage/sweep_file.hpp"

namespace dullcast::storage {
namespace {

// More numbers than are put into the file at a time, or held until they are.
constexpr long cases = 30'000;
constexpr int columns = 70;

SweepPart part_of(long first, long count) {
  SweepPart part;
  part.first_case = first;
  part.values.resize(count, columns);
  for (long r = 0; r < count; ++r) {
    for (int c = 0; c < columns; ++c)
      part.values(r, c) = static_cast<double>((first + r) * columns + c) / 3.0;
  }
  for (long number = first; number < first + count; ++number) {
    if (number % 500 == 0) part.failures.push_back({number, "case " + std::to_string(number) + " failed"});
    if (number % 700 == 0)
      part.histories.push_back({number, Eigen::ArrayXXd::Constant(3, 1, static_cast<double>(number))});
  }
  return part;
}

/// `asked`: how often parts are asked for.
std::string file_in_parts_of(long size, long* asked = nullptr) {
  SweepHeader header;
  header.table.points = cases;
  header.table.draws = 1;
  header.table.columns.resize(columns);
  for (int c = 0; c < columns; ++c) {
    SweepColumn& column = header.table.columns[static_cast<std::size_t>(c)];
    column.name = "column_" + std::to_string(c);
    column.units = "1";
  }
  header.history_columns.resize(1);
  header.history_columns[0].name = "footage";
  header.history_columns[0].units = "m";
  header.history_rows = 3;
  header.plan = header.scenario = header.manifest = "made up";
  std::string path = (std::filesystem::temp_directory_path() /
                      ("dullcast-blocks-" + std::to_string(::getpid()) + "-" + std::to_string(size) + ".h5"))
                         .string();
  write_sweep(path, header, (cases + size - 1) / size, [&](long k) {
    if (asked != nullptr) ++*asked;
    return part_of(k * size + 1, std::min(size, cases - k * size));
  });
  return path;
}

TEST(SweepBlocks, TheFileSaysNothingOfHowItsPartsWereCutOrGathered) {
  const std::string whole = file_in_parts_of(cases);
  const std::vector<std::byte> bytes = base::read_whole_file(whole);
  for (const long size : {7L, 100L, 3333L}) {
    const std::string path = file_in_parts_of(size);
    EXPECT_TRUE(base::read_whole_file(path) == bytes) << "in parts of " << size;
    std::filesystem::remove(path);
  }
  const SweepTable table = read_sweep(whole);
  std::filesystem::remove(whole);
  ASSERT_EQ(table.columns.size(), static_cast<std::size_t>(columns));
  for (int c = 0; c < columns; ++c) {
    const Eigen::ArrayXd& values = table.columns[static_cast<std::size_t>(c)].values;
    ASSERT_EQ(values.size(), cases);
    for (long r = 0; r < cases; ++r)
      ASSERT_EQ(values(r), static_cast<double>((r + 1) * columns + c) / 3.0) << "case " << r + 1;
  }
  ASSERT_EQ(table.failures.size(), static_cast<std::size_t>(cases / 500));
  EXPECT_EQ(table.failures.back().case_number, cases);
}

// Reading a part takes a process of its own.
TEST(SweepBlocks, OnlyPartsThatAreNotHeldAreAskedForTwice) {
  long asked = 0;
  std::filesystem::remove(file_in_parts_of(100, &asked));
  constexpr long parts = cases / 100;
  EXPECT_GT(asked, parts) << "some are more than is held";
  EXPECT_LT(asked, parts + parts / 10);
}

}  // namespace
}  // namespace dullcast::storage
