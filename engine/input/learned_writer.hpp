#pragma once

#include <string>

#include "engine/scenario/learned.hpp"

namespace dullcast::input {

/// What was learnt as the YAML that `learned:` reads, numbers in SI to the last bit, correlations to six
/// digits. `remark` goes before it, a line of comment each. Throws std::invalid_argument for a number that
/// the library does not know.
std::string learned_text(const scenario::Learned& learned, const std::string& remark);

/// How they go together alone, as the lines of `together:` indented by `indent` blanks; nothing where none
/// do.
std::string together_text(const scenario::NumbersTogether& together, int indent);

}  // namespace dullcast::input
