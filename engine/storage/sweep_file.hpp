#pragma once

#include <functional>
#include <string>
#include <vector>

#include "engine/storage/stored_file.hpp"
#include "engine/storage/sweep_part.hpp"

namespace dullcast::storage {

/// What a sweep file states beside its numbers.
struct SweepHeader {
  SweepTable table;  // title, design, counts and columns (their values are not used)
  std::vector<SweepColumn> history_columns;
  int history_rows = 0;
  std::string program_version, program_commit;
  std::string plan, scenario;  // as written
  std::string manifest;        // what every case can be made again from
};

/// Puts the parts of a sweep together in one file at `path`, all of it or none (see Hdf5FileAside). `part(k)`
/// gives part k of `parts`, in order and covering every case; each is asked for once, and what comes after
/// the first sixteen megabytes of them twice. Memory is that of some tens of megabytes of parts, or of one,
/// whatever the number of cases. The same parts give the same bytes.
/// `progress` is told parts done and in all. Throws FileError, and what `part` throws.
void write_sweep(const std::string& path, const SweepHeader& header, long parts,
                 const std::function<SweepPart(long)>& part,
                 const std::function<void(double, double)>& progress = {});

/// Reads a sweep file's table, all of it into memory, wherever it comes from (read_stored_file). Throws
/// FileError: no such file, no sweep, a newer format, without a checksum where `seal` requires one, damaged,
/// or more than the memory that is to be had.
SweepTable read_sweep(const std::string& path, Seal seal = Seal::required);

/// The same of what such a file holds; `path` is the name for messages.
SweepTable sweep_of(const StoredGroup& file, const std::string& path);

/// The sweep's manifest, as it was written.
std::string read_sweep_manifest(const std::string& path);

/// The kept courses of all cases that have one. Throws FileError.
SweepCourses read_sweep_courses(const std::string& path);

/// The same of what such a file holds; `path` is the name for messages.
SweepCourses sweep_courses_of(const StoredGroup& file, const std::string& path);

/// The kept course of one case: columns with one value a row. Throws FileError when the sweep did not keep
/// it.
std::vector<SweepColumn> read_sweep_history(const std::string& path, long case_number);

}  // namespace dullcast::storage
