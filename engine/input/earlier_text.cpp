#include "engine/input/earlier_text.hpp"

#include <algorithm>

namespace dullcast::input {

namespace {

// Each with what took its place.
constexpr const char* withdrawn[] = {
    "packed_flux_loss",  // a published law of what a bed of cuttings lets pass
};

}  // namespace

YamlValue without_withdrawn_numbers(YamlValue tree) {
  if (YamlEntry* models = tree.find("models")) {
    std::erase_if(models->value.entries, [](const YamlEntry& entry) {
      return std::find(std::begin(withdrawn), std::end(withdrawn), entry.key) != std::end(withdrawn);
    });
  }
  return tree;
}

}  // namespace dullcast::input
