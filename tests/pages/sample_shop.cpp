// Writes the sample outlook of tests/engine/storage/sample_shop.hpp, for trying pages. Usage: FILE.h5
#include "engine/storage/sample_shop.hpp"

#include <exception>
#include <iostream>

#include "engine/storage/shop_file.hpp"

int main(int count, char** words) {
  if (count != 2) {
    std::cerr << "sample-shop takes the name of the file to write\n";
    return 2;
  }
  try {
    dullcast::storage::write_shop(words[1], dullcast::storage::sample::shop());
  } catch (const std::exception& error) {
    std::cerr << "sample-shop: " << error.what() << "\n";
    return 4;
  }
}
