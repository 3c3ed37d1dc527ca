#pragma once

#include <string>
#include <vector>

#include "tools/schema_maker/keys_of_kinds.hpp"

namespace dullcast::schema_maker {

/// Texts that lead the readers of a kind through every branch in which they ask for keys. They say nothing of
/// what keys there are: what is missing here is missed by the tests, which ask the readers' messages.
std::vector<std::string> leading_texts(Kind kind);

}  // namespace dullcast::schema_maker
