#include <hdf5_hl.h>

#include <algorithm>
#include <cstring>
#include <map>

#include "engine/base/file_error.hpp"
#include "engine/base/whole_file.hpp"
#include "engine/storage/checksum.hpp"
#include "engine/storage/frame_memory.hpp"
#include "engine/storage/group_writer.hpp"
#include "engine/storage/hdf5_mutex.hpp"
#include "engine/storage/memory_file.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/storage/sweep_format.hpp"

namespace dullcast::storage {
namespace {

/// Makes the file's frame with HDF5 in memory, in which every table has its place but no values, and
/// remembers where each begins. Frame and values are then written by code of our own: HDF5 cannot recover
/// from a full disk.
class Frame {
 public:
  Frame() {
    H5::FileCreatPropList creation;
    const unsigned order = H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED;
    H5Pset_link_creation_order(creation.getId(), order);
    H5Pset_attr_creation_order(creation.getId(), order);
    H5Pset_obj_track_times(creation.getId(), 0);
    H5::FileAccPropList access;
    access.setLibverBounds(H5F_LIBVER_V18, H5F_LIBVER_V18);
    file_ = memory_.create(creation, access);
  }
  H5::H5File& file() { return file_; }

  /// An empty dataset that has its place; `place` names it for place_of().
  H5::DataSet put(const H5::Group& group, const Label& label, const H5::DataType& type,
                  const Dimensions& dims, const std::string& place) {
    H5::DSetCreatPropList properties;
    H5Pset_obj_track_times(properties.getId(), 0);
    H5Pset_attr_creation_order(properties.getId(), H5P_CRT_ORDER_TRACKED | H5P_CRT_ORDER_INDEXED);
    properties.setLayout(H5D_CONTIGUOUS);
    properties.setAllocTime(H5D_ALLOC_TIME_EARLY);
    properties.setFillTime(H5D_FILL_TIME_NEVER);
    std::vector<hsize_t> lengths;
    for (const Dimension& dimension : dims) lengths.push_back(dimension.length);
    H5::DataSet dataset = group.createDataSet(
        label.name, type, H5::DataSpace(static_cast<int>(lengths.size()), lengths.data()), properties);
    text(dataset, "long_name", label.meaning);
    if (!label.units.empty()) text(dataset, "units", label.units);
    for (unsigned axis = 0; axis < dims.size(); ++axis) {
      const hid_t scale = dims[axis].scale.getId();
      if (scale > 0 && H5DSattach_scale(dataset.getId(), scale, axis) < 0)
        throw H5::DataSetIException("attach_scale", label.name);
    }
    const bool empty =
        std::any_of(lengths.begin(), lengths.end(), [](hsize_t length) { return length == 0; });
    places_[place] = empty ? 0 : dataset.getOffset();
    return dataset;
  }

  static void text(const H5::H5Object& object, const std::string& name, const std::string& value) {
    const H5::StrType type(H5::PredType::C_S1, std::max<std::size_t>(value.size(), 1));
    object.createAttribute(name, type, H5::DataSpace(H5S_SCALAR))
        .write(type, value.empty() ? std::string(1, '\0') : value);
  }

  static void number(const H5::H5Object& object, const std::string& name, long value) {
    object.createAttribute(name, H5::PredType::STD_I64LE, H5::DataSpace(H5S_SCALAR))
        .write(H5::PredType::NATIVE_LONG, &value);
  }

  std::size_t place_of(const std::string& place) const { return static_cast<std::size_t>(places_.at(place)); }
  void close() { file_.close(); }
  void write_to(base::FileAside& file) const {
    memory_.pieces(
        [&](std::size_t at, const void* bytes, std::size_t count) { file.write_at(at, bytes, count); });
    // A table that is to be filled may be the last.
    if (file.size() < memory_.size()) file.write_at(memory_.size() - 1, "", 1);
  }

 private:
  FrameMemory memory_;  // outlives the file in it
  H5::H5File file_;
  std::map<std::string, haddr_t> places_;
};

struct Counts {
  hsize_t cases = 0, failures = 0, histories = 0;
};

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : " ") + word;
  return text;
}

void put_root(const GroupWriter& root, const SweepHeader& header) {
  const SweepTable& table = header.table;
  root.attribute("Conventions", "CF-1.9");
  root.attribute("title", table.title);
  root.attribute("source",
                 "dullcast " + header.program_version + " (" + header.program_commit + "), a simulation");
  root.attribute("file_type", sweep_format::file_type);
  root.attribute("format_version",
                 std::vector<int>{sweep_format::major_version, sweep_format::minor_version});
  root.attribute("program_version", header.program_version);
  root.attribute("program_commit", header.program_commit);
  root.attribute("design", table.design);
  root.attribute("currency", table.currency);
  root.attribute("draws_alike", std::vector<int>{table.draws_alike ? 1 : 0});
  root.long_attribute("plan", header.plan);
  root.long_attribute("scenario", header.scenario);
  root.long_attribute("beginning", header.manifest);
}

Dimension case_dimension(Frame& frame, const H5::Group& group, hsize_t count, const std::string& meaning,
                         const std::string& name, const std::string& place) {
  const H5::DataSet scale =
      frame.put(group, {name, "1", meaning}, H5::PredType::STD_I64LE, {{count, {}}}, place);
  if (H5DSset_scale(scale.getId(), name.c_str()) < 0) throw H5::DataSetIException("set_scale", name);
  return {count, scale};
}

void put_frame(Frame& frame, const SweepHeader& header, const Counts& counts) {
  const GroupWriter root{frame.file().openGroup("/")};
  put_root(root, header);
  Frame::number(frame.file().openGroup("/"), "points", header.table.points);
  Frame::number(frame.file().openGroup("/"), "draws", header.table.draws);
  root.subgroup("runs", "one entry a case");
  const H5::Group runs = frame.file().openGroup("/runs");
  const Dimension cases = case_dimension(frame, runs, counts.cases, "case, counted from 1", "case", "case");
  frame.put(runs, {"point", "1", "point of the design, counted from 1"}, H5::PredType::STD_I64LE, {cases},
            "point");
  frame.put(runs, {"draw", "1", "draw at that point, counted from 1"}, H5::PredType::STD_I64LE, {cases},
            "draw");
  for (std::size_t c = 0; c < header.table.columns.size(); ++c) {
    const SweepColumn& column = header.table.columns[c];
    const H5::DataSet dataset = frame.put(runs, {column.name, column.units, column.meaning},
                                          H5::PredType::IEEE_F64LE, {cases}, "column " + std::to_string(c));
    Frame::text(dataset, "role", sweep_format::roles[static_cast<int>(column.role)]);
    if (column.words.empty()) continue;
    // As CF states values that stand for words. Blanks inside a word would part it.
    std::vector<double> values(column.words.size());
    for (std::size_t k = 0; k < values.size(); ++k) values[k] = static_cast<double>(k);
    const hsize_t length = values.size();
    dataset.createAttribute("flag_values", H5::PredType::IEEE_F64LE, H5::DataSpace(1, &length))
        .write(H5::PredType::NATIVE_DOUBLE, values.data());
    std::vector<std::string> words = column.words;
    for (std::string& word : words) std::replace(word.begin(), word.end(), ' ', '_');
    Frame::text(dataset, "flag_meanings", joined(words));
  }
  root.subgroup("failures", "cases that could not be run");
  const H5::Group failures = frame.file().openGroup("/failures");
  const Dimension failed = case_dimension(frame, failures, counts.failures,
                                          "case that failed, counted from 1", "failed_case", "failed_case");
  const Dimension letters = case_dimension(frame, failures, sweep_format::message_length,
                                           "letter of a message, counted from 1", "letter", "letter");
  frame.put(failures, {"message", "", "why it failed"}, H5::StrType(H5::PredType::C_S1, 1), {failed, letters},
            "message");
  root.subgroup("histories", "the course of chosen cases at even steps of footage");
  const H5::Group histories = frame.file().openGroup("/histories");
  const Dimension kept =
      case_dimension(frame, histories, counts.histories, "case, counted from 1", "kept_case", "kept_case");
  const Dimension rows = case_dimension(frame, histories, static_cast<hsize_t>(header.history_rows),
                                        "row, counted from 1", "row", "row");
  for (const SweepColumn& column : header.history_columns) {
    frame.put(histories, {column.name, column.units, column.meaning}, H5::PredType::IEEE_F64LE, {kept, rows},
              "history " + column.name);
  }
}

/// Writes one run of values after another into the places that the frame has for them.
class Filler {
 public:
  Filler(base::FileAside& file, const Frame& frame, const SweepHeader& header)
      : file_(file), frame_(frame), header_(header) {}

  void add(const SweepPart& part) {
    const auto first = static_cast<std::size_t>(part.first_case - 1);
    const auto rows = static_cast<std::size_t>(part.values.rows());
    std::vector<long> number(rows), point(rows), draw(rows);
    for (std::size_t r = 0; r < rows; ++r) {
      number[r] = part.first_case + static_cast<long>(r);
      point[r] = (number[r] - 1) / header_.table.draws + 1;
      draw[r] = (number[r] - 1) % header_.table.draws + 1;
    }
    write("case", first, number);
    write("point", first, point);
    write("draw", first, draw);
    std::vector<double> values(rows);
    for (Eigen::Index c = 0; c < part.values.cols(); ++c) {
      for (std::size_t r = 0; r < rows; ++r) values[r] = part.values(static_cast<Eigen::Index>(r), c);
      write("column " + std::to_string(c), first, values);
    }
    for (const SweepFailure& failure : part.failures) {
      write("failed_case", failed_, std::vector<long>{failure.case_number});
      std::vector<char> letters(sweep_format::message_length, '\0');
      const std::size_t length = std::min(failure.message.size(), letters.size());
      std::copy_n(failure.message.begin(), length, letters.begin());
      write("message", failed_ * letters.size(), letters);
      ++failed_;
    }
    for (const ThinHistory& history : part.histories) {
      write("kept_case", kept_, std::vector<long>{history.case_number});
      const auto h_rows = static_cast<std::size_t>(history.values.rows());
      std::vector<double> course(h_rows);
      for (std::size_t c = 0; c < header_.history_columns.size(); ++c) {
        for (std::size_t r = 0; r < h_rows; ++r)
          course[r] = history.values(static_cast<Eigen::Index>(r), static_cast<Eigen::Index>(c));
        write("history " + header_.history_columns[c].name, kept_ * h_rows, course);
      }
      ++kept_;
    }
  }

  /// 1, 2, ... along a dimension.
  void count(const std::string& place, int length) {
    std::vector<long> numbers;
    for (int k = 1; k <= length; ++k) numbers.push_back(k);
    write(place, 0, numbers);
  }

 private:
  template <class Value>
  void write(const std::string& place, std::size_t first, const std::vector<Value>& values) {
    file_.write_at(frame_.place_of(place) + first * sizeof(Value), values.data(),
                   values.size() * sizeof(Value));
  }

  base::FileAside& file_;
  const Frame& frame_;
  const SweepHeader& header_;
  std::size_t failed_ = 0, kept_ = 0;
};

}  // namespace

void write_sweep(const std::string& path, const SweepHeader& header, long parts,
                 const std::function<SweepPart(long)>& part,
                 const std::function<void(double, double)>& progress) {
  static_assert(sizeof(long) == 8);
  const auto tell = [&](long done) {
    if (progress) progress(static_cast<double>(done), 2.0 * static_cast<double>(parts));
  };
  Counts counts;
  for (long k = 0; k < parts; ++k) {
    const SweepPart one = part(k);
    if (one.first_case != static_cast<long>(counts.cases) + 1 ||
        one.values.cols() != static_cast<Eigen::Index>(header.table.columns.size()))
      throw base::FileError(
          path, "nothing written: part " + std::to_string(k + 1) + " is not the next of this sweep");
    counts.cases += static_cast<hsize_t>(one.values.rows());
    counts.failures += one.failures.size();
    counts.histories += one.histories.size();
    tell(k + 1);
  }
  if (static_cast<long>(counts.cases) != header.table.cases())
    throw base::FileError(path, "nothing written: the parts do not hold every case");

  std::unique_ptr<Frame> frame;
  {
    const std::lock_guard<std::mutex> lock(hdf5_mutex());
    const QuietHdf5 quiet;
    try {
      frame = std::make_unique<Frame>();
      put_frame(*frame, header, counts);
      frame->close();
    } catch (const H5::Exception& error) {
      throw base::FileError(path,
                            "nothing written: HDF5 could not make the file (" + error.getDetailMsg() + ")");
    }
  }
  base::FileAside file(path);
  frame->write_to(file);
  Filler filler(file, *frame, header);
  filler.count("row", header.history_rows);
  filler.count("letter", sweep_format::message_length);
  for (long k = 0; k < parts; ++k) {
    filler.add(part(k));
    tell(parts + k + 1);
  }
  const std::size_t size = file.size();
  const auto seal = checksum_of(
      size, [&](std::size_t at, void* bytes, std::size_t count) { return file.read_at(at, bytes, count); });
  file.write_at(size, seal.data(), seal.size());
  file.keep();
}

}  // namespace dullcast::storage
