#include <gtest/gtest.h>

#include <chrono>
#include <random>

#include "engine/base/file_error.hpp"
#include "engine/base/plain_text.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/storage/changed_file.hpp"
#include "engine/storage/made_up_run.hpp"
#include "engine/storage/stored_run.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/storage/sweep_part_file.hpp"
#include "engine/storage/write_result.hpp"

/// Files that somebody made by hand, with a checksum that holds: readers must refuse them with a sentence, in
/// seconds, whatever is in them.
namespace dullcast::storage {
namespace {

using changed_file::change;

/// What FileError says when `read` is called; "read" when nothing is thrown.
template <class Read>
std::string said(const Read& read) {
  try {
    read();
  } catch (const base::FileError& error) {
    EXPECT_TRUE(base::is_plain(error.reason())) << error.reason();
    return error.reason();
  }
  return "read";
}

std::string of_run(const std::string& why) {
  return "this result is damaged: " + why + "; copy it anew, or run its scenario again";
}
std::string of_sweep(const std::string& why) {
  return "this sweep is damaged: " + why + "; copy it anew, or run its plan again";
}
std::string of_part(const std::string& why) {
  return "this part of a sweep is damaged: " + why + "; dullcast sweep --resume runs its cases again";
}

class FileFromElsewhere : public testing::Test {
 protected:
  /// A small run, changed.
  std::string run_said(const std::function<void(H5::H5File&)>& how) const {
    write_result(run, made_up::scenario(3), made_up::plain_outcome(3, 4));
    change(run, how);
    return said([&] { read_result(run); });
  }
  /// A small sweep with a failure and a course, changed.
  std::string sweep_said(const std::function<void(H5::H5File&)>& how) const {
    write_small_sweep();
    change(sweep, how);
    return said([&] {
      read_sweep(sweep);
      read_sweep_manifest(sweep);
      read_sweep_history(sweep, 2);
    });
  }
  std::string part_said(const std::function<void(H5::H5File&)>& how) const {
    write_sweep_part(part, small_part());
    change(part, how);
    return said([&] { read_sweep_part(part); });
  }

  static SweepPart small_part() {
    SweepPart small;
    small.fingerprint = "abcd";
    small.values.setConstant(4, 2, 1.5);
    small.failures = {{3, "it could not be run"}};
    small.histories = {{2, Eigen::ArrayXXd::Constant(3, 1, 7.0)}};
    return small;
  }
  void write_small_sweep() const {
    SweepHeader header;
    header.table.title = "a small sweep";
    header.table.points = 2;
    header.table.draws = 2;
    header.table.columns.resize(2);
    header.table.columns[0].name = "weight";
    header.table.columns[1].name = "ended_by";
    header.table.columns[1].words = {"last_hole", "rework_due"};
    header.history_columns.resize(1);
    header.history_columns[0].name = "footage";
    for (SweepColumn* column :
         {&header.table.columns[0], &header.table.columns[1], &header.history_columns[0]}) {
      column->units = "1";
      column->meaning = "made up";
    }
    header.history_rows = 3;
    header.plan = header.scenario = header.manifest = "made up";
    write_sweep(sweep, header, 1, [](long) { return small_part(); });
  }

  made_up::Folder folder;
  std::string run = folder / "run.h5", sweep = folder / "sweep.h5", part = folder / "part.h5";
};

void put_number(H5::H5File& file, const std::string& name, const std::vector<long>& values) {
  const hsize_t length = values.size();
  file.createDataSet(name, H5::PredType::STD_I64LE, H5::DataSpace(1, &length))
      .write(values.data(), H5::PredType::NATIVE_LONG);
}

TEST_F(FileFromElsewhere, UnchangedFilesAreRead) {
  const auto nothing = [](H5::H5File&) {};
  EXPECT_EQ(run_said(nothing), "read");
  EXPECT_EQ(sweep_said(nothing), "read");
  EXPECT_EQ(part_said(nothing), "read");
}

TEST_F(FileFromElsewhere, LinksThatMayLeadElsewhereAreRefused) {
  EXPECT_EQ(run_said([](H5::H5File& file) {
              file.unlink("/history/weight");
              H5Lcreate_external("other.h5", "/weight", file.getId(), "/history/weight", H5P_DEFAULT,
                                 H5P_DEFAULT);
            }),
            of_run("/history/weight is a link that may lead elsewhere"));
  EXPECT_EQ(sweep_said([](H5::H5File& file) {
              H5Lcreate_soft("/runs/weight", file.getId(), "/runs/another", H5P_DEFAULT, H5P_DEFAULT);
            }),
            of_sweep("/runs/another is a link that may lead elsewhere"));
  EXPECT_EQ(part_said([](H5::H5File& file) {
              H5Lcreate_hard(file.getId(), "/values", file.getId(), "/z", H5P_DEFAULT, H5P_DEFAULT);
            }),
            of_part("/z is another name of something else in the file"));
  // A circle would be walked round for ever.
  EXPECT_EQ(run_said([](H5::H5File& file) {
              H5Lcreate_hard(file.getId(), "/outcome", file.getId(), "/outcome/end/z", H5P_DEFAULT,
                             H5P_DEFAULT);
            }),
            of_run("/outcome/end/z is another name of something else in the file"));
}

TEST_F(FileFromElsewhere, ValuesKeptOutsideOfTheFileAreRefused) {
  const hsize_t four = 4;
  const auto with = [&](const H5::DSetCreatPropList& made) {
    return run_said([&](H5::H5File& file) {
      file.createDataSet("/extra", H5::PredType::IEEE_F64LE, H5::DataSpace(1, &four), made);
    });
  };
  H5::DSetCreatPropList outside;
  outside.setExternal("/etc/hostname", 0, 32);
  EXPECT_EQ(with(outside), of_run("/extra keeps its values outside of the file"));
  H5::DSetCreatPropList virtually;
  const H5::DataSpace whole(1, &four);
  H5Pset_virtual(virtually.getId(), whole.getId(), "other.h5", "/weight", whole.getId());
  EXPECT_EQ(with(virtually), of_run("/extra keeps its values outside of the file"));
}

TEST_F(FileFromElsewhere, FiltersThatThisProgramDoesNotWriteAreRefused) {
  EXPECT_EQ(run_said([](H5::H5File& file) {
              const hsize_t four = 4;
              const int values[4] = {};
              H5::DSetCreatPropList made;
              made.setChunk(1, &four);
              made.setNbit();
              file.createDataSet("/extra", H5::PredType::STD_I32LE, H5::DataSpace(1, &four), made)
                  .write(values, H5::PredType::NATIVE_INT);
            }),
            of_run("/extra is packed by a filter that this program does not write"));
}

TEST_F(FileFromElsewhere, SizesThatTheFileCannotHoldAreRefusedBeforeMemoryIsTaken) {
  const auto of_size = [&](hsize_t rows, bool chunked) {
    return run_said([&](H5::H5File& file) {
      file.unlink("/history/torque");
      H5::DSetCreatPropList made;
      const hsize_t chunk = 1024;
      if (chunked) {
        made.setChunk(1, &chunk);
        made.setDeflate(6);
      }
      file.createDataSet("/history/torque", H5::PredType::IEEE_F64LE, H5::DataSpace(1, &rows), made);
    });
  };
  const std::string refused = of_run("/history/torque claims more values than the file can hold");
  EXPECT_EQ(of_size(hsize_t{1} << 31, false), refused);  // 16 GiB
  EXPECT_EQ(of_size(hsize_t{1} << 31, true), refused);
  EXPECT_EQ(of_size(hsize_t{1} << 60, true), refused);  // 8 bytes each: more than there are addresses
}

TEST_F(FileFromElsewhere, AttributesOfAnotherKindOrLengthAreRefused) {
  const auto points = [&](const H5::DataType& type, const std::vector<long>& values) {
    return sweep_said([&](H5::H5File& file) {
      const H5::Group root = file.openGroup("/");
      root.removeAttr("points");
      const hsize_t length = values.size();
      root.createAttribute("points", type, H5::DataSpace(1, &length))
          .write(H5::PredType::NATIVE_LONG, values.data());
    });
  };
  EXPECT_EQ(points(H5::PredType::STD_I64LE, std::vector<long>(1000, 2)),
            of_sweep("/points is not one whole number"));
  EXPECT_EQ(points(H5::PredType::IEEE_F64LE, {2}), of_sweep("/points is not one whole number"));
  EXPECT_EQ(points(H5::PredType::STD_I64LE, {-2}), of_sweep("/points is no number of points"));
  EXPECT_EQ(points(H5::PredType::STD_I64LE, {3}),
            of_sweep("/runs/case does not hold the points and draws that the sweep states"));
  EXPECT_EQ(points(H5::PredType::STD_I64LE, {2}), "read");
  const auto units = [&](const H5::DataType& type, const void* value) {
    return sweep_said([&](H5::H5File& file) {
      const H5::DataSet weight = file.openDataSet("/runs/weight");
      weight.removeAttr("units");
      weight.createAttribute("units", type, H5::DataSpace(H5S_SCALAR)).write(type, value);
    });
  };
  const char* text = "N";
  EXPECT_EQ(units(H5::StrType(H5::PredType::C_S1, H5T_VARIABLE), &text), "read");
  std::string letters(100'000, 'x');
  hvl_t numbers{letters.size() / 8, letters.data()};
  EXPECT_EQ(units(H5::VarLenType(H5::PredType::NATIVE_LONG), &numbers),
            of_sweep("/runs/weight/units is not one text"));
  EXPECT_EQ(units(H5::PredType::NATIVE_CHAR, letters.data()), of_sweep("/runs/weight/units is not one text"));
}

TEST_F(FileFromElsewhere, TablesOfAnotherShapeAreRefused) {
  EXPECT_EQ(sweep_said([](H5::H5File& file) {
              file.unlink("/failures/message");
              const hsize_t lengths[2] = {50, 7000};
              const std::string letters(lengths[0] * lengths[1], 'x');
              const H5::StrType letter(H5::PredType::C_S1, 1);
              file.createDataSet("/failures/message", letter, H5::DataSpace(2, lengths))
                  .write(letters.data(), letter);
            }),
            of_sweep("/failures/message has another shape than it should"));
  EXPECT_EQ(sweep_said([](H5::H5File& file) {
              file.unlink("/failures/failed_case");
              put_number(file, "/failures/failed_case", {99});
            }),
            of_sweep("/failures/failed_case names a case that is not there"));
  for (const auto& rows : {std::vector<long>{-3, -1}, {1L << 62, 4}, {0, 0}, {2, 1}, {1, 1}}) {
    EXPECT_EQ(part_said([&](H5::H5File& file) {
                file.unlink("/history_rows");
                put_number(file, "/history_rows", rows);
              }),
              of_part("/history has another shape than it should"))
        << rows[0];
  }
  EXPECT_EQ(part_said([](H5::H5File& file) {
              file.openDataSet("/first_case").write(std::vector<long>{-5}.data(), H5::PredType::NATIVE_LONG);
            }),
            of_part("/first_case is no number of a case"));
  EXPECT_EQ(run_said([](H5::H5File& file) {
              file.openDataSet("/bit/kind").write(std::vector<int>{1, 2, 1}.data(), H5::PredType::NATIVE_INT);
            }),
            of_run("/bit/kind names a kind of cutter that the file does not hold"));
}

TEST_F(FileFromElsewhere, NoTextOfAFileReachesATerminalAsItIs) {
  const std::string nasty = "\x1b]0;gone\a\x1b[2J";
  const auto retitle = [&](H5::H5File& file) {
    const H5::Group root = file.openGroup("/");
    root.removeAttr("title");
    const H5::StrType type(H5::PredType::C_S1, nasty.size());
    root.createAttribute("title", type, H5::DataSpace(H5S_SCALAR)).write(type, nasty);
  };
  EXPECT_EQ(run_said(retitle), "read");
  EXPECT_EQ(read_result(run).title, "\\x1b]0;gone\\x07\\x1b[2J");
  EXPECT_EQ(sweep_said(retitle), "read");
  EXPECT_EQ(read_sweep(sweep).title, "\\x1b]0;gone\\x07\\x1b[2J");
  EXPECT_EQ(run_said([&](H5::H5File& file) {
              const H5::DataSet ended = file.openDataSet("/outcome/ended_by");
              ended.write(nasty, ended.getStrType());
            }),
            of_run("/outcome/ended_by says '\\x1b]0;gone\\x07\\x1b[2J', which this program does not know"));
  EXPECT_EQ(sweep_said([&](H5::H5File& file) { file.move("/runs/weight", "/runs/" + nasty); }),
            of_sweep("/runs/\\x1b]0;gone\\x07\\x1b[2J has a name that is no plain text"));
}

TEST_F(FileFromElsewhere, WrongBytesUnderARightChecksumAreReadOrRefusedInSeconds) {
  write_small_sweep();
  write_result(run, made_up::scenario(3), made_up::plain_outcome(3, 4));
  write_sweep_part(part, small_part());
  std::mt19937_64 draw(20'261'129);
  const auto began = std::chrono::steady_clock::now();
  for (int k = 0; k < 150; ++k) {
    const std::string& whole = k % 3 == 0 ? run : k % 3 == 1 ? sweep : part;
    std::vector<std::byte> bytes = base::read_whole_file(whole);
    // Behind the signature, before the checksum; half of them in the first thousands, where HDF5's own words
    // are.
    for (std::size_t wrong = 1 + draw() % 4; wrong > 0; --wrong) {
      const std::size_t span = (k % 2 == 0 ? bytes.size() : std::min<std::size_t>(bytes.size(), 4000)) - 24;
      bytes[8 + draw() % span] = static_cast<std::byte>(draw() % 256);
    }
    const std::string bad = folder / "bad.h5";
    base::write_whole_file(bad, bytes);
    changed_file::seal(bad);
    said([&] {
      if (k % 3 == 0) read_result(bad);
      if (k % 3 == 1) read_sweep(bad);
      if (k % 3 == 2) read_sweep_part(bad);
    });
  }
  EXPECT_LT(std::chrono::steady_clock::now() - began, std::chrono::seconds(150 * 5));
}

}  // namespace
}  // namespace dullcast::storage
