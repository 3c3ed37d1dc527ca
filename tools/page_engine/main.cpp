#include <exception>
#include <iostream>
#include <string>

#include "tools/page_engine/page_answers.hpp"
#include "tools/page_engine/unit_texts.hpp"

/// The program beside the engine in a page: answers what pages ask (page_answers.hpp), one line of JSON for
/// each line, which the page's answers are compared with; and writes the table of units that pages know.
int main(int count, char** words) {
  try {
    if (count == 2 && std::string(words[1]) == "--units") {
      std::cout << dullcast::page_engine::unit_table_text(dullcast::page_engine::unit_answers());
      return 0;
    }
    if (count != 1) {
      std::cout << "Usage: page-answers < REQUESTS   answers what pages ask of the engine, a line of JSON "
                   "for a line\n"
                   "       page-answers --units      writes tools/page_engine/wasm/unit_table.inc\n";
      return 2;
    }
    dullcast::page_engine::PageAnswers answers;
    for (std::string request; std::getline(std::cin, request);)
      std::cout << answers.answer(request) << std::endl;
    return 0;
  } catch (const std::exception& failure) {
    std::cerr << "page-answers: " << failure.what() << '\n';
    return 4;
  }
}
