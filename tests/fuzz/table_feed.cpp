#include "engine/input/shelf_table.hpp"
#include "fuzz/fed_reader.hpp"
#include "fuzz/feeds.hpp"

namespace dullcast::fuzz {

void take_table(const std::string& bytes) {
  was_read([&](std::vector<input::Warning>&) {
    input::Problems problems;
    const input::CsvTable table = input::read_csv(bytes, "fed.csv", problems);
    if (table.header_end > bytes.size()) throw Fault("the header ends past the text");
    for (const auto& row : table.rows) {
      if (row.size() > table.header.size()) throw Fault("a row longer than the header");
    }
    const std::size_t columns = input::shelf_columns(table, "fed.csv", problems).size();
    if (columns != table.header.size()) throw Fault("not one column to a heading");
    input::records_of_table(table, "fed.csv", problems);
    problems.throw_if_any();
  });
}

}  // namespace dullcast::fuzz
