#pragma once

#include <Eigen/Core>
#include <nlohmann/json.hpp>
#include <string>

#include "engine/base/display.hpp"

/// Pieces that all views for pages are made of. Only sources include this header: its library is a big one.
namespace dullcast::pages {

/// The text of a view. What is not UTF-8, which a file from elsewhere may hold, is replaced.
std::string json_text(const nlohmann::json& view);

/// A number for a page: six significant figures, which no figure shows more of; null where it is not finite.
nlohmann::json number(double value);

/// One number per entry.
nlohmann::json numbers(const Eigen::ArrayXd& values);

/// How a page begins: "field", "si" or "both".
const char* units_word(base::ShownUnits units);

/// A sentence that `words` tells in given units, as {"field": ..., "si": ...}: the page shows one of them.
template <class Words>
nlohmann::json told(const Words& words) {
  return {{"field", words(base::ShownUnits::field)}, {"si", words(base::ShownUnits::si)}};
}

}  // namespace dullcast::pages
