#include <algorithm>
#include <cmath>
#include <ostream>

#include "engine/base/plain_text.hpp"
#include "engine/input/yaml_lines.hpp"
#include "tools/commands/compare_measures.hpp"
#include "tools/commands/compare_report.hpp"

namespace dullcast::commands {

void write_comparison_csv(std::ostream& out, const std::vector<ToldRun>& runs,
                          const std::vector<input::InputDifference>& differences) {
  const auto line = [&](const std::string& part, const std::string& what, const std::string& unit,
                        const auto& cell) {
    out << part << "," << base::csv_cell(what) << "," << base::csv_cell(unit);
    for (std::size_t k = 0; k < runs.size(); ++k) out << "," << base::csv_cell(cell(k));
    out << "\n";
  };
  const auto number = [](double value) {
    return std::isfinite(value) ? input::exact_text(value) : std::string();
  };
  line("part", "what", "unit", [&](std::size_t k) { return runs[k].name; });
  for (const input::InputDifference& one : differences)
    line("input", one.key, "", [&](std::size_t k) { return one.values[k]; });
  line("outcome", "rework_due", "",
       [&](std::size_t k) { return std::string(runs[k].outcome.rework_due ? "yes" : "no"); });
  line("outcome", "hole", "", [&](std::size_t k) {
    const simulation::RunOutcome& run = runs[k].outcome;
    return std::to_string(run.rework_due ? run.rework_due->hole + 1 : run.holes_finished);
  });
  for (const Measure& measure : measures())
    line("outcome", measure.name, measure.unit,
         [&](std::size_t k) { return number(measure.value(runs[k])); });
  std::size_t layers = 0;
  for (const ToldRun& run : runs) layers = std::max(layers, run.scenario.column.layers.size());
  for (std::size_t layer = 0; layer < layers; ++layer) {
    const auto of = [&](std::size_t k, const auto& value) {
      for (const simulation::LayerPassage& p : runs[k].outcome.passages)
        if (p.hole == 0 && p.layer == static_cast<int>(layer)) return value(p);
      return std::string();
    };
    const std::string name = "layer " + std::to_string(layer + 1) + ": ";
    line("layer", name + "rock", "",
         [&](std::size_t k) { return of(k, [](const auto& p) { return p.rock; }); });
    line("layer", name + "rate_of_penetration", "m/s", [&](std::size_t k) {
      return of(k, [&](const auto& p) { return number(p.mean_rate_of_penetration); });
    });
    line("layer", name + "hottest_flat", "K",
         [&](std::size_t k) { return of(k, [&](const auto& p) { return number(p.hottest_flat); }); });
  }
}

}  // namespace dullcast::commands
