#include "engine/analysis/sensitivity_findings.hpp"

#include <gtest/gtest.h>

#include "engine/analysis/made_sweep.hpp"

namespace dullcast::analysis {
namespace {

using testing::made_column;
using testing::made_sweep;
using testing::MadeCase;

TEST(SensitivityFindings, LayersAndLensesAreToldByTheirRock) {
  std::vector<double> hard, stony;
  storage::SweepTable table = made_sweep(1, 40, "grid", [&](long, long draw) {
    MadeCase c;
    hard.push_back(0.5 + 0.01 * static_cast<double>(draw));
    stony.push_back(static_cast<double>(draw % 3));
    c.cost = 100.0 * hard.back();
    return c;
  });
  const auto add = [&](const std::string& name, const std::string& meaning,
                       const std::vector<double>& values) {
    table.columns.push_back(made_column(name, "1", storage::ColumnRole::uncertain, values));
    table.columns.back().meaning = meaning;
  };
  add("lenses_1", "lenses of gravel met by chance", stony);
  add("strength_factor_layer_5", "what multiplies the strength of layer 5 (hard_sandstone)", hard);
  const std::vector<Sensitivity> found = find_sensitivities(table, std::nullopt, {});
  const Sensitivity& cost = found.at(1);
  ASSERT_EQ(cost.factors.size(), 2u);
  EXPECT_EQ(cost.factors[0].name, "strength_factor_layer_5");
  EXPECT_EQ(cost.factors[0].told, "strength of layer 5 (hard sandstone)");
  EXPECT_EQ(cost.factors[1].told, "lenses of gravel");
}

}  // namespace
}  // namespace dullcast::analysis
