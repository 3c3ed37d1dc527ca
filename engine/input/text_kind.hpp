#pragma once

#include "engine/input/located_yaml.hpp"

namespace dullcast::input {

/// What people write as YAML, but for files of the library, which go by their names.
enum class TextKind { scenario, sweep_plan, shop_plan, learned, shelf };

/// What a text is, by the keys at its top; a scenario where they say nothing else.
TextKind kind_of_text(const YamlValue& tree);

}  // namespace dullcast::input
