#pragma once

#include "engine/input/located_yaml.hpp"

namespace dullcast::input {

/// A scenario's tree as an earlier program resolved and stored it, without the numbers of models that no law
/// asks for any more: such a text has every number there was. Texts that people write are not for this: there
/// the key is told.
YamlValue without_withdrawn_numbers(YamlValue tree);

}  // namespace dullcast::input
