#include <string>

#include "tools/page_engine/page_answers.hpp"

/// What a page calls: `request` and what comes back are JSON (tools/page_engine/page_answers.hpp). The text
/// that comes back stays until the next call.
extern "C" const char* dullcast_answer(const char* request) {
  static dullcast::page_engine::PageAnswers answers;
  static std::string answer;
  answer = answers.answer(request);
  return answer.c_str();
}
