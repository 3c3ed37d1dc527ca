#pragma once

#include <string>
#include <vector>

/// Tables in a page of Markdown that the commands write themselves, each between two marks.
namespace dullcast::proofs {

/// One row of a table; bars inside cells are escaped.
std::string table_row(const std::vector<std::string>& cells);
/// The head of a table and the rule below it.
std::string table_head(const std::vector<std::string>& cells);

/// The page with `text` between "<!-- PART: written by build/proofs -->" and "<!-- end of PART -->". Throws
/// std::runtime_error naming the mark that is missing or out of order.
std::string with_part(const std::string& page, const std::string& part, const std::string& text);

/// Puts `text` into the file so, aside and renamed. Throws std::runtime_error with the path.
void write_part(const std::string& path, const std::string& part, const std::string& text);

}  // namespace dullcast::proofs
