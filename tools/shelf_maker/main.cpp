#include <cstdio>
#include <exception>
#include <iostream>
#include <string>

#include "tools/shelf_maker/shelf_text.hpp"

// make-shelf [SEED]: writes the shelf of forty bits to standard output. The one that is shipped is seed 11's:
//   build/make-shelf > scenarios/shelf_of_forty_bits.csv
int main(int count, char** words) {
  using namespace dullcast;
  try {
    const unsigned long seed = count > 1 ? std::stoul(words[1]) : 11;
    const std::string folder = std::string(DULLCAST_SOURCE_DIR) + "/scenarios";
    const input::ScenarioReader reader(folder + "/library");
    std::cout << shelf_maker::shelf_text(reader, folder, seed, {});
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "make-shelf: %s\n", error.what());
    return 1;
  }
}
