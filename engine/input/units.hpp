#pragma once

#include <memory>
#include <stdexcept>
#include <string>
#include <string_view>

#include "engine/base/dimension.hpp"

/// Units at the door: a text such as "6750 lbf" becomes a number in SI (angles in rad, rotary speed in
/// rev/s). UDUNITS-2 does the arithmetic; the trade's own words that it lacks or reads otherwise are put into
/// its words first: gal and gpm (US gallons), lpm (litres), cfm, ppg, cP, deg, rpm (revolutions), lb, lbs, kg
/// and t (a force, only where a weight is wanted), C and F (only where a temperature is wanted), in any case.
/// Money has a small rule of its own.
namespace dullcast::input {

/// Why a text is no value of the wanted dimension, as one sentence that also says what would be right.
class UnitError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Reads units. Opens the UDUNITS-2 database once and keeps each conversion it has made; keep one for a whole
/// reading. Threads: one parser from one thread at a time; several parsers may be used at once (UDUNITS-2,
/// which keeps its last status for the whole process, is asked by one thread at a time, and only for units
/// that a parser has not met before).
class UnitParser {
 public:
  /// Throws UnitError when the UDUNITS-2 database cannot be opened.
  UnitParser();
  ~UnitParser();
  UnitParser(UnitParser&&) noexcept;
  UnitParser& operator=(UnitParser&&) noexcept;

  /// The value of `text` in the SI unit of `wanted`; always finite. `currency` is the word money must be in.
  /// Throws UnitError with one sentence: what is wrong, what would be right.
  double parse(std::string_view text, const base::Dimension& wanted, std::string_view currency = "$") const;

 private:
  struct System;
  std::unique_ptr<System> system_;
};

}  // namespace dullcast::input
