#pragma once

#include <functional>
#include <memory>
#include <string>

/// What a unit word is worth in another unit. UDUNITS-2 answers here (unit_database.cpp); a page in a
/// browser, where that library is not, has a table of its answers behind the same declarations
/// (tools/page_engine).
namespace dullcast::input {

/// From a number in one unit to the number in another: a factor, or a factor and an offset.
using UnitLine = std::function<double(double)>;

/// Opens what it knows once. Threads: one database from one thread at a time; several may be used at once
/// (UDUNITS-2, which keeps its last status for the whole process, is asked by one thread at a time).
class UnitDatabase {
 public:
  /// Throws UnitError when the database cannot be opened.
  UnitDatabase();
  ~UnitDatabase();
  UnitDatabase(UnitDatabase&&) noexcept;
  UnitDatabase& operator=(UnitDatabase&&) noexcept;

  /// The line from a unit in the database's words to the unit `si`; empty when there is none: an unknown
  /// word, another dimension, or a reciprocal. Throws UnitError when the database lacks `si`, std::bad_alloc.
  UnitLine line(const std::string& words, const std::string& si) const;

  /// Whether the words are a unit of any dimension.
  bool knows(const std::string& words) const;

 private:
  struct Opened;
  std::unique_ptr<Opened> opened_;
};

}  // namespace dullcast::input
