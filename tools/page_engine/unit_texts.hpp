#pragma once

#include <string>
#include <vector>

/// The units a page in a browser knows. UDUNITS-2 is not there, so what it says of every unit that the trade
/// writes is kept as a table (unit_table.inc), made by `page-answers --units` and held against UDUNITS-2
/// by a test.
namespace dullcast::page_engine {

/// One answer: so many of `si` are number * factor + offset of the unit in UDUNITS-2's words.
struct UnitAnswer {
  std::string words, si;
  double factor = 1.0, offset = 0.0;
};

/// The answers to every unit of the pages, sorted by words and si, no pair twice. Throws UnitError when the
/// database of units cannot be opened or does not know one of them.
std::vector<UnitAnswer> unit_answers();

/// They as the lines of unit_table.inc.
std::string unit_table_text(const std::vector<UnitAnswer>& answers);

}  // namespace dullcast::page_engine
