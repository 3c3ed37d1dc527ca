#include "engine/analysis/life_findings.hpp"

#include <algorithm>
#include <stdexcept>

namespace dullcast::analysis {
namespace {

struct MeasureColumns {
  const char* due;
  const char* followed;
};

MeasureColumns columns_of(LifeMeasure measure) {
  switch (measure) {
    case LifeMeasure::holes:
      return {"due_hole", "holes_finished"};
    case LifeMeasure::footage:
      return {"due_footage", "footage"};
    case LifeMeasure::rotating_time:
      return {"due_rotating_time", "rotating_time"};
  }
  throw std::logic_error("columns_of: not a measure");
}

}  // namespace

const Eigen::ArrayXd& values_of(const storage::SweepTable& table, const std::string& name) {
  const storage::SweepColumn* column = table.find(name);
  if (column == nullptr) throw std::invalid_argument("the sweep has no column \"" + name + "\"");
  if (column->values.size() != table.cases())
    throw std::invalid_argument("column \"" + name + "\" of the sweep has " +
                                std::to_string(column->values.size()) + " values for " +
                                std::to_string(table.cases()) + " cases");
  return column->values;
}

CaseEnds::CaseEnds(const storage::SweepTable& table)
    : failed_(&values_of(table, "failed")),
      due_(&values_of(table, "rework_due")),
      ended_by_(&values_of(table, "ended_by")) {
  const std::vector<std::string>& words = table.find("ended_by")->words;
  for (std::size_t k = 0; k < words.size(); ++k) {
    if (words[k] == "last_hole") last_hole_ = static_cast<double>(k);
  }
}

std::vector<statistics::Life> lives_of(const storage::SweepTable& table, const std::vector<long>& cases,
                                       LifeMeasure measure) {
  const MeasureColumns names = columns_of(measure);
  const Eigen::ArrayXd &due = values_of(table, names.due), &followed = values_of(table, names.followed);
  const CaseEnds ends(table);
  std::vector<statistics::Life> lives;
  for (const long k : cases) {
    if (!ends.failed(k)) lives.push_back({ends.due(k) ? due(k) : followed(k), ends.due(k)});
  }
  return lives;
}

LifeFinding find_life(const storage::SweepTable& table, const std::vector<long>& cases, double confidence) {
  LifeFinding finding;
  const Eigen::ArrayXd& holes = values_of(table, "holes_finished");
  const CaseEnds ends(table);
  for (const long k : cases) {
    if (ends.failed(k)) {
      ++finding.failed;
      continue;
    }
    ++finding.draws;
    if (ends.due(k)) {
      ++finding.due;
      continue;
    }
    ++(ends.finished(k) ? finding.finished : finding.ended_otherwise);
    finding.holes_drilled = std::max(finding.holes_drilled, holes(k));
  }
  finding.finishing = static_cast<double>(finding.finished) / static_cast<double>(finding.draws);
  finding.finishing_range = statistics::probability_interval(finding.finished, finding.draws, confidence);
  for (std::size_t m = 0; m < life_measures.size(); ++m) {
    const std::vector<statistics::Life> lives = lives_of(table, cases, life_measures[m]);
    for (std::size_t s = 0; s < life_shares.size(); ++s)
      finding.quantiles[m][s] = statistics::life_quantile(lives, life_shares[s], confidence);
  }
  return finding;
}

}  // namespace dullcast::analysis
