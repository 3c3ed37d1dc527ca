#pragma once

#include <string>
#include <vector>

namespace dullcast::input {

/// A scenario's text with `sets` ("key=value", see apply_sets) written into it, everything else as its author
/// wrote it, comments included. What stands there is replaced in its place; what is new is written before the
/// first key beside it, or at the end of the file. The text is read again afterwards: what comes back means
/// the same as the old text with the sets applied, or nothing comes back. `file` is the name for messages.
/// Throws ScenarioErrors where the text or a set cannot be read, or where a set cannot be written into this
/// text (a value of several lines, for instance).
std::string text_with_sets(const std::string& text, const std::string& file,
                           const std::vector<std::string>& sets);

}  // namespace dullcast::input
