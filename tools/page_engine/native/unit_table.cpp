#include <exception>
#include <fstream>
#include <iostream>

#include "tools/page_engine/unit_texts.hpp"

/// Writes the table of units that pages in a browser know.
int main(int count, char** words) {
  if (count != 2 || std::string(words[1]) == "--help") {
    std::cout
        << "Usage: make-unit-table FILE\n"
           "Writes what UDUNITS-2 says of the units that pages know: tools/page_engine/wasm/unit_table.inc\n";
    return count == 2 ? 0 : 2;
  }
  try {
    std::ofstream out(words[1]);
    out << dullcast::page_engine::unit_table_text(dullcast::page_engine::unit_answers());
    out.close();
    if (!out) throw std::runtime_error(std::string(words[1]) + " cannot be written");
    return 0;
  } catch (const std::exception& failure) {
    std::cerr << "make-unit-table: " << failure.what() << '\n';
    return 4;
  }
}
