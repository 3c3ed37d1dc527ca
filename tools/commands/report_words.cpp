#include "tools/commands/report_words.hpp"

#include <algorithm>
#include <iomanip>

#include "engine/base/dimension.hpp"

namespace dullcast::commands {

const base::Shown* shown_unit(std::string_view si_unit) {
  namespace dimension = base::dimension;
  const auto is = [&](const base::Dimension& kind) { return si_unit == kind.si || si_unit == kind.label; };
  if (is(dimension::force)) return &base::shown::weight;
  if (is(dimension::rotary_speed)) return &base::shown::rotary_speed;
  if (is(dimension::flow)) return &base::shown::flow;
  if (is(dimension::pressure)) return &base::shown::pressure;
  if (is(dimension::temperature)) return &base::shown::temperature;
  if (is(dimension::speed)) return &base::shown::progress;
  return nullptr;
}

void Sheet::line(const std::string& label, const std::string& text) const {
  out << "  " << std::left << std::setw(17) << label << text << "\n";
}

void Sheet::row(const std::vector<std::string>& cells, const std::vector<int>& widths) const {
  out << "  " << std::left;
  for (std::size_t k = 0; k < cells.size(); ++k) {
    // Characters take one column, whatever bytes they have in UTF-8.
    const auto more_bytes = std::count_if(cells[k].begin(), cells[k].end(), [](char c) {
      return (static_cast<unsigned char>(c) & 0xC0U) == 0x80U;
    });
    const bool last = k + 1 == cells.size();
    const int width = last ? 0 : widths.at(k) + static_cast<int>(more_bytes);
    out << std::setw(width) << cells[k];
    if (!last && static_cast<int>(cells[k].size()) >= width) out << "  ";  // a long cell stands apart too
  }
  out << "\n";
}

int rock_column(const scenario::Scenario& scenario) {
  std::size_t longest = 12;
  for (const scenario::Layer& layer : scenario.column.layers)
    longest = std::max(longest, layer.rock.name.size());
  return static_cast<int>(longest) + 2;
}

}  // namespace dullcast::commands
