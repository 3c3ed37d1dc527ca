#include <exception>
#include <iostream>

#include "tools/proofs/command.hpp"

namespace dullcast::proofs {
namespace {

constexpr const char* help =
    "proofs: holds the model against what others measured or published, and says where it fails.\n"
    "\n"
    "  proofs measurements  laboratory drilling, published trends and values, rules of thumb\n"
    "  proofs heat          the engine's thermal network against a 3-D solution, random cutters\n"
    "\n"
    "  proofs COMMAND --help               the options of a command\n";

int dispatch(const std::vector<std::string>& words) {
  if (words.empty()) {
    std::cerr << help;
    return wrong_words;
  }
  if (words[0] == "--help" || words[0] == "-h") {
    std::cout << help;
    return ended_well;
  }
  const std::vector<std::string> rest(words.begin() + 1, words.end());
  if (words[0] == "measurements") return measurements_command(rest);
  if (words[0] == "heat") return heat_command(rest);
  throw WrongOptions("there is no command \"" + words[0] + "\"");
}

}  // namespace
}  // namespace dullcast::proofs

int main(int count, char** words) {
  using namespace dullcast::proofs;
  try {
    return dispatch(std::vector<std::string>(words + 1, words + count));
  } catch (const WrongOptions& error) {
    std::cerr << "proofs: " << error.what() << ". Try \"proofs --help\".\n";
    return wrong_words;
  } catch (const std::exception& error) {
    std::cerr << "proofs: " << error.what() << "\n";
    return failed;
  }
}
