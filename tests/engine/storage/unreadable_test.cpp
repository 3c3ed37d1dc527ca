#include <H5Cpp.h>
#include <gtest/gtest.h>
#include <sys/stat.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <functional>
#include <random>

#include "engine/base/file_error.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/storage/changed_file.hpp"
#include "engine/storage/made_up_run.hpp"
#include "engine/storage/same_values.hpp"
#include "engine/storage/stored_run.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/storage/sweep_part_file.hpp"
#include "engine/storage/write_result.hpp"

namespace dullcast::storage {
namespace {

/// What FileError says when `read` is called; "read" when nothing is thrown.
std::string said_by(const std::function<void()>& read) {
  try {
    read();
  } catch (const base::FileError& error) {
    return error.reason();
  }
  return "read";
}

std::string said_of(const std::string& path) {
  return said_by([&] {
    try {
      read_result(path);
    } catch (const base::FileError& error) {
      EXPECT_EQ(error.path(), path);
      throw;
    }
  });
}

void put(const std::string& path, const std::vector<std::byte>& bytes) {
  std::ofstream(path, std::ios::binary)
      .write(reinterpret_cast<const char*>(bytes.data()), static_cast<std::streamsize>(bytes.size()));
}

class Unreadable : public testing::Test {
 protected:
  void SetUp() override { write_result(path, made_up::scenario(5), made_up::plain_outcome(5, 1500)); }
  made_up::Folder folder;
  std::string path = folder / "run.h5";
};

TEST_F(Unreadable, FilesThatAreNotOursAreNamed) {
  EXPECT_EQ(said_of(folder / "none.h5"), "cannot open this file: No such file or directory");
  EXPECT_EQ(said_of(folder.path()), "this is a folder, not a result");
  EXPECT_EQ(said_of("/dev/null"), "this is not an ordinary file");
  put(folder / "empty.h5", {});
  EXPECT_EQ(said_of(folder / "empty.h5"), "this file is empty");
  std::ofstream(folder / "text.h5") << "title: a scenario, not a result\n";
  EXPECT_EQ(said_of(folder / "text.h5"), "this is not a dullcast run: it is not an HDF5 file");
  H5::H5File(folder / "other.h5", H5F_ACC_TRUNC).createGroup("data");
  changed_file::seal(folder / "other.h5");
  EXPECT_EQ(said_of(folder / "other.h5"), "this HDF5 file is not a dullcast run");
  {
    const H5::H5File file(folder / "sweep.h5", H5F_ACC_TRUNC);
    const H5::StrType type(H5::PredType::C_S1, 14);
    file.openGroup("/")
        .createAttribute("file_type", type, H5::DataSpace(H5S_SCALAR))
        .write(type, std::string("dullcast sweep"));
  }
  changed_file::seal(folder / "sweep.h5");
  EXPECT_EQ(said_of(folder / "sweep.h5"), "this file is a 'dullcast sweep', not a 'dullcast run'");
}

const std::string way_out = "; copy it anew, or run its scenario again";
const std::string no_checksum =
    "this HDF5 file has no checksum at its end: it is cut short (copy it anew, or run its scenario again), "
    "or "
    "another program wrote it (if it is to be trusted, dullcast seal looks through it and writes a copy with "
    "a "
    "checksum)";
const std::string wrong_checksum =
    "this result is damaged: its bytes do not agree with the checksum at its end" + way_out;
constexpr std::size_t checksum_length = 16;

TEST_F(Unreadable, CutShortAtAnyLengthIsAnErrorAndNoCrash) {
  const std::vector<std::byte> whole = base::read_whole_file(path);
  ASSERT_EQ(said_of(path), "read");
  const std::size_t data = whole.size() - checksum_length;
  std::vector<std::size_t> lengths;
  for (std::size_t length = 0; length < 300; ++length) lengths.push_back(length);
  for (std::size_t length = 300; length < data; length += data / 300) lengths.push_back(length);
  for (std::size_t less = 1; less < 64; ++less) lengths.push_back(data - less);
  for (const std::size_t length : lengths) {
    put(folder / "cut.h5", {whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(length)});
    const std::string said = said_of(folder / "cut.h5");
    EXPECT_EQ(said, length == 0 ? "this file is empty" : no_checksum) << length;
  }
  // Only the checksum is gone: the data are whole, which is no reason to trust them unasked.
  put(folder / "cut.h5", {whole.begin(), whole.begin() + static_cast<std::ptrdiff_t>(data)});
  EXPECT_EQ(said_of(folder / "cut.h5"), no_checksum);
  EXPECT_TRUE(same_values::same(read_result(folder / "cut.h5", Seal::may_be_missing).outcome,
                                read_result(path).outcome));
}

TEST_F(Unreadable, AFlippedByteAnywhereInTheDataIsAnError) {
  const std::vector<std::byte> whole = base::read_whole_file(path);
  const std::size_t data = whole.size() - checksum_length;
  std::mt19937_64 draw(20'240'229);
  for (int k = 0; k < 400; ++k) {
    std::vector<std::byte> bytes = whole;
    const std::size_t place = draw() % data;
    bytes[place] ^= static_cast<std::byte>(1 + draw() % 255);
    put(folder / "bad.h5", bytes);
    const std::string said = said_of(folder / "bad.h5");
    EXPECT_EQ(said, place < 8 ? "this is not a dullcast run: it is not an HDF5 file" : wrong_checksum)
        << "byte " << place;
  }
}

TEST_F(Unreadable, ABlockOfZerosAnywhereInTheDataIsAnError) {
  const std::vector<std::byte> whole = base::read_whole_file(path);
  for (std::size_t place = 0; place + 512 + checksum_length <= whole.size(); place += 512) {
    std::vector<std::byte> bytes = whole;
    const auto first = bytes.begin() + static_cast<std::ptrdiff_t>(place);
    if (std::all_of(first, first + 512, [](std::byte b) { return b == std::byte{0}; })) continue;
    std::fill_n(first, 512, std::byte{0});
    put(folder / "bad.h5", bytes);
    EXPECT_NE(said_of(folder / "bad.h5"), "read") << "block at " << place;
  }
}

TEST_F(Unreadable, ANewerMajorVersionIsRefusedAndANewerMinorVersionRead) {
  const auto set_version = [&](int major, int minor) {
    changed_file::change(path, [&](H5::H5File& file) {
      const int version[2] = {major, minor};
      file.openGroup("/").openAttribute("format_version").write(H5::PredType::NATIVE_INT, version);
    });
  };
  set_version(2, 0);
  const std::string said = said_of(path);
  EXPECT_EQ(said.find("this result has format 2.0, written by dullcast "), 0U) << said;
  EXPECT_NE(said.find("; this program reads format 1: use a newer dullcast"), std::string::npos) << said;
  set_version(0, 9);
  EXPECT_NE(said_of(path).find("run its scenario again"), std::string::npos);
  set_version(1, 99);
  EXPECT_EQ(said_of(path), "read");
}

TEST_F(Unreadable, AMissingOrReplacedDatasetIsNamed) {
  const auto with = [&](const std::function<void(H5::H5File&)>& change) {
    write_result(path, made_up::scenario(5), made_up::plain_outcome(5, 20));
    changed_file::change(path, change);
    return said_of(path);
  };
  EXPECT_EQ(with([](H5::H5File& file) { file.unlink("/history/flat_temperature"); }),
            "this result is damaged: /history/flat_temperature is missing" + way_out);
  EXPECT_EQ(with([](H5::H5File& file) { file.unlink("/outcome/end"); }),
            "this result is damaged: /outcome/end is missing" + way_out);
  EXPECT_EQ(with([](H5::H5File& file) { file.unlink("/cutter"); }),
            "this result is damaged: /cutter is missing" + way_out);
  EXPECT_EQ(with([](H5::H5File& file) {
              file.unlink("/outcome/end/worn_height");
              const hsize_t four = 4;
              const double values[4] = {};
              file.createDataSet("/outcome/end/worn_height", H5::PredType::IEEE_F64LE,
                                 H5::DataSpace(1, &four))
                  .write(values, H5::PredType::NATIVE_DOUBLE);
            }),
            "this result is damaged: /outcome/end/worn_height has another shape than it should" + way_out);
  EXPECT_EQ(
      with([](H5::H5File& file) {
        file.unlink("/holes/depth_reached");
        const hsize_t two = 2;
        const int values[2] = {};
        file.createDataSet("/holes/depth_reached", H5::PredType::STD_I32LE, H5::DataSpace(1, &two))
            .write(values, H5::PredType::NATIVE_INT);
      }),
      "this result is damaged: /holes/depth_reached holds another kind of value than it should" + way_out);
}

TEST_F(Unreadable, WhatIsNoOrdinaryFileIsNamedAtOnce) {
  const auto all = [&](const std::string& name, const std::string& expected) {
    EXPECT_EQ(said_of(name), expected) << name;
    EXPECT_EQ(said_by([&] { read_sweep(name); }), expected) << name;
    EXPECT_EQ(said_by([&] { read_sweep_part(name); }), expected) << name;
  };
  ASSERT_EQ(::mkfifo((folder / "pipe").c_str(), 0600), 0);
  all(folder / "pipe", "this is not an ordinary file");
  all("/dev/zero", "this is not an ordinary file");
  put(folder / "empty.h5", {});
  all(folder / "empty.h5", "this file is empty");
  EXPECT_EQ(said_by([&] { read_sweep(folder.path().string()); }), "this is a folder, not a sweep");
  // Terabytes without a byte on the disk: beginning and end tell, without reading what lies between.
  std::filesystem::resize_file(path, std::uintmax_t{1} << 40);
  EXPECT_EQ(said_by([&] { read_sweep(path); }),
            "this file has 1024 GiB, more than a sweep that this program reads (64 GiB)");
  std::filesystem::resize_file(path, std::uintmax_t{1} << 35);
  EXPECT_NE(said_by([&] { read_sweep(path); }).find("has no checksum at its end"), std::string::npos);
}

}  // namespace
}  // namespace dullcast::storage
