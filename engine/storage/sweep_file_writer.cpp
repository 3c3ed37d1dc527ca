#include <algorithm>
#include <iterator>
#include <numeric>

#include "engine/base/file_error.hpp"
#include "engine/storage/hdf5_file_aside.hpp"
#include "engine/storage/hdf5_use.hpp"
#include "engine/storage/sweep_file.hpp"
#include "engine/storage/sweep_format.hpp"
#include "engine/storage/sweep_tables.hpp"

namespace dullcast::storage {
namespace {

/// Writes whole rows, from row `first` (counted from 0) on.
template <class Value>
void write_rows(const H5::DataSet& dataset, const H5::DataType& in_memory, hsize_t first,
                const std::vector<Value>& values) {
  if (values.empty()) return;
  const H5::DataSpace in_file = dataset.getSpace();
  std::vector<hsize_t> block(static_cast<std::size_t>(in_file.getSimpleExtentNdims()));
  in_file.getSimpleExtentDims(block.data());
  block.front() = values.size() / (block.size() == 2 ? block.back() : 1);
  std::vector<hsize_t> start(block.size(), 0);
  start.front() = first;
  in_file.selectHyperslab(H5S_SELECT_SET, block.data(), start.data());
  dataset.write(values.data(), in_memory, H5::DataSpace(static_cast<int>(block.size()), block.data()),
                in_file);
}

void write_rows(const H5::DataSet& dataset, hsize_t first, const std::vector<long>& values) {
  write_rows(dataset, H5::PredType::NATIVE_LONG, first, values);
}

void write_rows(const H5::DataSet& dataset, hsize_t first, const std::vector<double>& values) {
  write_rows(dataset, H5::PredType::NATIVE_DOUBLE, first, values);
}

/// 1, 2, ... along the whole of a dimension.
void write_count(const H5::DataSet& dimension) {
  std::vector<long> numbers(static_cast<std::size_t>(dimension.getSpace().getSimpleExtentNpoints()));
  std::iota(numbers.begin(), numbers.end(), 1);
  write_rows(dimension, 0, numbers);
}

/// A sweep's file on its way: the tables are made, then filled part by part. HDF5 is used by one thread at a
/// time, and not while a part is fetched, which may use it too.
class SweepWriter {
 public:
  SweepWriter(const std::string& path, const SweepHeader& header)
      : path_(path), header_(header), aside_(path) {}
  ~SweepWriter() { let_go(); }
  SweepWriter(const SweepWriter&) = delete;
  SweepWriter& operator=(const SweepWriter&) = delete;

  void put(const SweepCounts& counts) {
    with_hdf5([&] {
      file_ = aside_.create();
      tables_ = put_tables(file_, header_, counts);
      write_count(tables_.letters);
      write_count(tables_.rows);
    });
  }
  void add(const SweepPart& part) {
    with_hdf5([&] {
      add_runs(part);
      add_failures(part.failures);
      for (const ThinHistory& history : part.histories) add_history(history);
    });
  }
  void keep() {
    let_go();
    aside_.keep();
  }

 private:
  template <class Work>
  void with_hdf5(const Work& work) {
    const Hdf5Use use;
    try {
      work();
    } catch (const H5::Exception& error) {
      aside_.check();
      throw base::FileError(path_,
                            "nothing written: HDF5 could not make the file (" + error.getDetailMsg() + ")");
    }
    aside_.check();
  }

  void let_go() {
    const Hdf5Use use;
    tables_ = {};
    file_ = {};
  }

  void add_runs(const SweepPart& part) {
    const auto first = static_cast<hsize_t>(part.first_case - 1);
    const auto rows = static_cast<std::size_t>(part.values.rows());
    std::vector<long> number(rows), point(rows), draw(rows);
    for (std::size_t r = 0; r < rows; ++r) {
      number[r] = part.first_case + static_cast<long>(r);
      point[r] = (number[r] - 1) / header_.table.draws + 1;
      draw[r] = (number[r] - 1) % header_.table.draws + 1;
    }
    write_rows(tables_.cases, first, number);
    write_rows(tables_.point, first, point);
    write_rows(tables_.draw, first, draw);
    std::vector<double> values(rows);
    for (std::size_t c = 0; c < tables_.columns.size(); ++c) {
      Eigen::Map<Eigen::ArrayXd>(values.data(), part.values.rows()) =
          part.values.col(static_cast<Eigen::Index>(c));
      write_rows(tables_.columns[c], first, values);
    }
  }

  void add_failures(const std::vector<SweepFailure>& failures) {
    for (const SweepFailure& failure : failures) {
      write_rows(tables_.failed_cases, failed_, std::vector<long>{failure.case_number});
      std::vector<char> letters(sweep_format::message_length, '\0');
      std::copy_n(failure.message.begin(), std::min(failure.message.size(), letters.size()), letters.begin());
      write_rows(tables_.message, H5::StrType(H5::PredType::C_S1, 1), failed_, letters);
      ++failed_;
    }
  }

  void add_history(const ThinHistory& history) {
    write_rows(tables_.kept_cases, kept_, std::vector<long>{history.case_number});
    std::vector<double> course(static_cast<std::size_t>(history.values.rows()));
    for (std::size_t c = 0; c < tables_.histories.size(); ++c) {
      Eigen::Map<Eigen::ArrayXd>(course.data(), history.values.rows()) =
          history.values.col(static_cast<Eigen::Index>(c));
      write_rows(tables_.histories[c], kept_, course);
    }
    ++kept_;
  }

  const std::string& path_;
  const SweepHeader& header_;
  Hdf5FileAside aside_;
  H5::H5File file_;
  SweepTables tables_;
  hsize_t failed_ = 0, kept_ = 0;
};

/// Consecutive parts as one. Every column of what is added to the file is a writing of its own, so that small
/// parts one by one would cost more than making them.
SweepPart joined(std::vector<SweepPart>& parts) {
  if (parts.size() == 1) return std::move(parts.front());
  SweepPart all;
  all.first_case = parts.front().first_case;
  Eigen::Index rows = 0;
  for (const SweepPart& part : parts) rows += part.values.rows();
  all.values.resize(rows, parts.front().values.cols());
  rows = 0;
  for (SweepPart& part : parts) {
    all.values.middleRows(rows, part.values.rows()) = part.values;
    rows += part.values.rows();
    std::move(part.failures.begin(), part.failures.end(), std::back_inserter(all.failures));
    std::move(part.histories.begin(), part.histories.end(), std::back_inserter(all.histories));
  }
  return all;
}

}  // namespace

void write_sweep(const std::string& path, const SweepHeader& header, long parts,
                 const std::function<SweepPart(long)>& part,
                 const std::function<void(double, double)>& progress) {
  static_assert(sizeof(long) == 8);
  const auto tell = [&](long done) {
    if (progress) progress(static_cast<double>(done), 2.0 * static_cast<double>(parts));
  };
  SweepCounts counts;
  // Reading a part takes longer than what is in it: the first of them are held until they are written.
  constexpr Eigen::Index values_held = 2'000'000;
  std::vector<SweepPart> held;
  Eigen::Index values = 0;
  const auto values_of = [](const SweepPart& one) {
    Eigen::Index count = one.values.size();
    for (const ThinHistory& history : one.histories) count += history.values.size();
    return count;
  };
  for (long k = 0; k < parts; ++k) {
    SweepPart one = part(k);
    if (one.first_case != static_cast<long>(counts.cases) + 1 ||
        one.values.cols() != static_cast<Eigen::Index>(header.table.columns.size()))
      throw base::FileError(
          path, "nothing written: part " + std::to_string(k + 1) + " is not the next of this sweep");
    for (const ThinHistory& history : one.histories) {
      if (history.values.rows() != header.history_rows ||
          history.values.cols() != static_cast<Eigen::Index>(header.history_columns.size()))
        throw base::FileError(
            path, "nothing written: part " + std::to_string(k + 1) + " keeps courses of another shape");
    }
    counts.cases += static_cast<hsize_t>(one.values.rows());
    counts.failures += one.failures.size();
    counts.histories += one.histories.size();
    values += values_of(one);
    if (values <= values_held) held.push_back(std::move(one));
    tell(k + 1);
  }
  if (static_cast<long>(counts.cases) != header.table.cases())
    throw base::FileError(path, "nothing written: the parts do not hold every case");

  SweepWriter writer(path, header);
  writer.put(counts);
  // Some megabytes at a time, whatever the parts' size.
  constexpr Eigen::Index values_at_once = 500'000;
  std::vector<SweepPart> fetched;
  values = 0;
  for (long k = 0; k < parts; ++k) {
    const bool at_hand = k < std::ssize(held);
    fetched.push_back(at_hand ? std::move(held[static_cast<std::size_t>(k)]) : part(k));
    values += values_of(fetched.back());
    if (values >= values_at_once || k + 1 == parts) {
      writer.add(joined(fetched));
      fetched.clear();
      values = 0;
    }
    tell(parts + k + 1);
  }
  writer.keep();
}

}  // namespace dullcast::storage
