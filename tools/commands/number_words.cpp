#include "tools/commands/number_words.hpp"

#include <cstdio>
#include <map>

#include "tools/commands/report_words.hpp"

namespace dullcast::commands {
namespace {

/// How values of a dimension are shown; the rest stands in SI.
const std::map<std::string, const base::Shown*>& shown_dimensions() {
  static const std::map<std::string, const base::Shown*> known{
      {base::dimension::pressure.name, &base::shown::pressure},
      {base::dimension::length.name, &base::shown::length},
      {base::dimension::temperature.name, &base::shown::temperature},
      {base::dimension::flow.name, &base::shown::flow},
      {base::dimension::temperature_difference.name, &base::shown::temperature_difference}};
  return known;
}

}  // namespace

std::string number_words(double value, const base::Dimension* dimension, base::ShownUnits units) {
  if (dimension == nullptr) return base::show_number(value);
  if (dimension->rule == base::UnitRule::angle) return angle_words(value);
  const auto found = shown_dimensions().find(dimension->name);
  // Both units at once would fill the line; field units are enough beside the library's own.
  if (found != shown_dimensions().end())
    return base::show(value, *found->second,
                      units == base::ShownUnits::si ? base::ShownUnits::si : base::ShownUnits::field);
  char text[40];
  std::snprintf(text, sizeof text, "%.3g", value);
  const std::string unit = dimension->label;
  return unit.empty() ? text : text + (" " + unit);
}

}  // namespace dullcast::commands
