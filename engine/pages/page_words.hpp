#pragma once

#include <string>
#include <vector>

/// What every page says of its numbers and of the iron they are about.
namespace dullcast::pages {

/// How far the figures may be believed, a sentence each, as README.md has it ("How far to believe it"; a test
/// holds the two together). `learned_from`: inspected bits that the numbers rest on, 0 for none.
std::vector<std::string> estimate_words(int learned_from);

/// The usual cautions of the trade [common practice], and what comes before any page.
std::vector<std::string> caution_words();

}  // namespace dullcast::pages
