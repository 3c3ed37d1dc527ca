#include "engine/input/shelf_reader.hpp"
#include "fuzz/fed_reader.hpp"
#include "fuzz/feeds.hpp"

namespace dullcast::fuzz {

void take_shelf(const std::string& bytes) {
  const std::string file = fed_folder() + (bytes.starts_with("sh") ? "/fed.yaml" : "/fed.csv");
  was_read([&](std::vector<input::Warning>& warnings) {
    for (const scenario::ShelvedBit& bit : input::read_shelf_text(bytes, file, fed_reader(), warnings))
      must_be_finite(bit.run);
  });
}

}  // namespace dullcast::fuzz
