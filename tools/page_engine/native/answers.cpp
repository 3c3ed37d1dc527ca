#include <exception>
#include <iostream>
#include <string>

#include "tools/page_engine/page_answers.hpp"

/// Answers requests of pages (tools/page_engine/page_answers.hpp), one a line, as the engine in a page does:
/// what pages are compared with.
int main(int count, char**) {
  if (count != 1) {
    std::cout << "Usage: page-answers < REQUESTS\n"
                 "Answers what pages ask of the engine, one line of JSON for each line of JSON.\n";
    return 2;
  }
  try {
    dullcast::page_engine::PageAnswers answers;
    for (std::string request; std::getline(std::cin, request);)
      std::cout << answers.answer(request) << std::endl;
    return 0;
  } catch (const std::exception& failure) {
    std::cerr << "page-answers: " << failure.what() << '\n';
    return 4;
  }
}
