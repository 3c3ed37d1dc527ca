#include "engine/input/latest_record.hpp"

#include <stdexcept>

#include "engine/base/words.hpp"

namespace dullcast::input {

scenario::ShelvedBit latest_record(const std::vector<scenario::ShelvedBit>& shelf, const std::string& name,
                                   const std::string& file) {
  const scenario::ShelvedBit* latest = nullptr;
  std::vector<std::string> known;
  for (const scenario::ShelvedBit& one : shelf) {
    known.push_back(one.found.bit);
    // Days as ISO 8601 writes them are in order as texts are.
    if (one.found.bit == name && (latest == nullptr || one.found.inspected >= latest->found.inspected))
      latest = &one;
  }
  if (latest != nullptr) return *latest;
  const std::string nearest = base::nearest_word(name, known);
  throw std::invalid_argument(file + ": there is no bit \"" + name + "\" on this shelf" +
                              (nearest.empty() ? "" : "; did you mean \"" + nearest + "\"?"));
}

}  // namespace dullcast::input
