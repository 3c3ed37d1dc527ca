#include "engine/sweep/sweep_plan_reader.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "engine/sweep/small_sweep.hpp"

namespace dullcast::sweep {
namespace {

using testing::changed;
using testing::small_field;
using testing::small_plan;
using testing::small_texts;

const input::ScenarioReader& reader() {
  static const input::ScenarioReader instance(testing::library_texts());
  return instance;
}

SweepPlan plan_of(const std::string& text, const std::string& field = small_field(),
                  const std::string& table = "") {
  std::vector<input::Warning> warnings;
  return read_sweep_plan(small_texts(text, field, table), reader(), warnings);
}

/// All errors of a plan in one text; empty when it can be read.
std::string errors_of(const std::string& text, const std::string& field = small_field(),
                      const std::string& table = "") {
  if (text.empty()) return "the test's change found nothing to change";
  try {
    plan_of(text, field, table);
    return "";
  } catch (const input::ScenarioErrors& errors) {
    return errors.what();
  }
}

bool says(const std::string& errors, const std::string& words) {
  return errors.find(words) != std::string::npos;
}

TEST(SweepPlanReader, ReadsEveryPart) {
  const SweepPlan plan = plan_of(small_plan());
  EXPECT_EQ(plan.title, "small sweep");
  EXPECT_EQ(plan.seed, 7);
  ASSERT_EQ(plan.factors.size(), 2u);
  const FactorTarget& weight = plan.factors[0].targets.at(0);
  EXPECT_EQ(weight.paths, (std::vector<std::string>{"plan.0.weight_on_bit", "plan.1.weight_on_bit"}));
  EXPECT_TRUE(weight.scales);
  constexpr double pound = 4.4482216152605;  // exact, NIST SP 811
  ASSERT_EQ(weight.base.size(), 2u);
  EXPECT_NEAR(weight.base[0], 1500.0 * pound, 1e-8);
  EXPECT_NEAR(weight.base[1], 1800.0 * pound, 1e-8);
  EXPECT_EQ(plan.factors[1].targets.at(0).words, (std::vector<std::string>{"standard", "premium"}));
  ASSERT_EQ(plan.draws.values.size(), 2u);
  EXPECT_EQ(plan.draws.values[0].distribution.kind, statistics::Distribution::Kind::percentiles);
  EXPECT_FALSE(plan.draws.values[0].source.empty()) << "the library's own";
  EXPECT_NEAR(plan.draws.values[1].distribution.a, 288.15, 1e-9);
  EXPECT_NEAR(plan.draws.values[1].distribution.b, 2.0, 1e-12) << "a difference, not a temperature";
  ASSERT_TRUE(plan.draws.layers);
  EXPECT_DOUBLE_EQ(plan.draws.layers->correlation_depth, 1.0);
  ASSERT_EQ(plan.draws.lenses.size(), 1u);
  EXPECT_NEAR(plan.draws.lenses[0].thickness.a, 0.05, 1e-15);
}

TEST(SweepPlanReader, WordsAreNoNumbersAndNumbersNoWords) {
  EXPECT_TRUE(says(errors_of(changed(small_plan(), "[0.8, 1.2]", "[0.8, heavy]")), "factors.0.values.1"));
  EXPECT_TRUE(says(errors_of(changed(small_plan(), "values: [0.8, 1.2]", "values: [80 rpm, 90 rpm]")),
                   "plain numbers"));
}

TEST(SweepPlanReader, NamesWhatIsWrongWithItsPlace) {
  struct Slip {
    const char* from;
    const char* to;
    const char* words;
  };
  const Slip slips[] = {
      {"path: bit.grade", "paths: bit.grade", "factors.1"},
      {"kind: grid", "kind: grit", "latin_hypercube"},
      {"plan.*.weight_on_bit", "plan.*.weight", "nothing to multiply"},
      {"plan.*.weight_on_bit", "bit.*.weight_on_bit", "no list"},
      {"seed: 7", "sead: 7", "seed"},
      {"number: abrasion_coefficient", "number: abrasion_coeficient", "abrasion_coefficient"},
      {", source: invented}\n  layers", "}\n  layers", "draws.values.1.source"},
      {"deviation: 2 K", "deviation: 2 bar", "deviation"},
      {"deviation: 2 K", "deviation: -2 K", "deviation"},
      {"rock: gravel", "rock: gravle", "gravel"},
      {"runs: 3", "runs: 0", "draws.runs"},
      {"kind: grid", "kind: latin_hypercube", "points"},
      {"kind: grid", "{kind: sobol_sequence, points: 8, with_uncertain: yes}", ""},
      {"name: grade", "name: weight", "heads another column"},
      {"path: bit.grade, values: [standard, premium]", "path: bit.grade, from: standard, to: premium",
       "word"},
      {"together: 0.5", "together: 1.5", "together"},
  };
  for (const Slip& slip : slips) {
    const std::string errors = errors_of(changed(small_plan(), slip.from, slip.to));
    EXPECT_FALSE(errors.empty()) << slip.to;
    EXPECT_TRUE(says(errors, slip.words)) << slip.to << "\n" << errors;
    EXPECT_TRUE(says(errors, "plan.yaml:")) << errors;
  }
}

TEST(SweepPlanReader, ARangeInAGridNeedsSteps) {
  const std::string ranged = changed(small_plan(), "values: [0.8, 1.2]", "from: 0.8, to: 1.2");
  EXPECT_TRUE(says(errors_of(ranged), "steps"));
  EXPECT_EQ(errors_of(changed(ranged, "to: 1.2", "to: 1.2, steps: 5")), "");
}

TEST(SweepPlanReader, RepeatsThatDrawNothingAreRefused) {
  EXPECT_TRUE(says(errors_of("scenario: field.yaml\n"
                             "factors: [{name: flow, path: plan.*.flow, values: [20 gal/min, 30 gal/min]}]\n"
                             "draws: {runs: 5}\n"),
                   "the same"));
}

TEST(SweepPlanReader, RefusesInPlaceWhatRunsOfASweepDoNotLookAt) {
  const auto with_path = [](const std::string& path, const std::string& values) {
    return changed(small_plan(), "path: bit.grade, values: [standard, premium]",
                   "path: " + path + ", values: [" + values + "]");
  };
  for (const auto& [path, values] :
       std::vector<std::pair<std::string, std::string>>{{"bit.continues", "a.h5, b.h5"},
                                                        {"calibrate_from.scenario", "a.yaml, b.yaml"},
                                                        {"calibrate_from", "a.yaml, b.yaml"},
                                                        {"costs.currency", "$, crowns"},
                                                        {"chance.seed", "1, 2"},
                                                        {"title", "one, two"},
                                                        {"bit.note", "one, two"}}) {
    const std::string errors = errors_of(with_path(path, values));
    EXPECT_TRUE(says(errors, "plan.yaml:6:") && says(errors, "factors.1.path: " + path)) << path << errors;
  }
  const std::string drawn =
      changed(small_plan(), "path: fluid.inlet_temperature", "path: calibrate_from.holes");
  EXPECT_TRUE(says(errors_of(drawn), "draws.values.1.path: calibrate_from.holes")) << errors_of(drawn);
  const std::string chance = with_path("chance", "expected, drawn");
  EXPECT_EQ(errors_of(chance), "") << "moved by a factor alone it is what each run does";
  EXPECT_TRUE(
      says(errors_of(changed(chance, "  runs: 3\n", "  runs: 3\n  chance: drawn\n")), "draws.chance"));
  const std::string linked = changed(small_plan(), "path: bit.grade, values: [standard, premium]",
                                     "linked: [{name: one, path: bit.continues, values: [a.h5, b.h5]}]");
  EXPECT_TRUE(says(errors_of(linked), "factors.1.linked.0.path")) << errors_of(linked);
}

TEST(SweepPlanReader, WarnsOfWhatNoOutcomeDependsOn) {
  std::vector<input::Warning> warnings;
  const std::string plan = changed(small_plan(), "path: bit.grade, values: [standard, premium]",
                                   "path: costs.rework, values: [100 $, 200 $]");
  read_sweep_plan(small_texts(plan), reader(), warnings);
  const auto of_plan = std::count_if(warnings.begin(), warnings.end(), [](const input::Warning& warning) {
    return warning.key == "factors.1.path" && says(warning.text, "costs.rework");
  });
  EXPECT_EQ(of_plan, 1);
}

TEST(SweepPlanReader, MoreThanAnyNightDoesIsRefusedWhateverTheDesign) {
  const std::string factors =
      "scenario: field.yaml\n"
      "factors: [{name: speed, path: plan.*.rotary_speed, from: 70 rpm, to: 90 rpm}]\n";
  for (const std::string design : {"latin_hypercube, points: 1000000000000}\ndraws: {runs: 100, values: "
                                   "[{number: abrasion_coefficient}]}\n",
                                   "variance_shares, points: 900000000000}\n"}) {
    const std::string errors = errors_of(factors + "design: {kind: " + design);
    EXPECT_TRUE(says(errors, "10^12")) << design << errors;
  }
}

TEST(SweepPlanReader, ATableFullOfMistakesIsToldInAFewLines) {
  std::string table = "grade, speed [rpm]\n";
  for (int k = 0; k < 20'000; ++k) table += "grade_" + std::to_string(k) + ", quick\n";
  const std::string plan =
      "scenario: field.yaml\n"
      "factors:\n"
      "  - {name: speed, path: plan.*.rotary_speed}\n"
      "  - {name: grade, path: bit.grade}\n"
      "design: {kind: table, file: table.csv}\n";
  EXPECT_LT(errors_of(plan, small_field(), table).size(), 50'000u);
  table = "grade, speed [rpm]\n";
  for (int k = 0; k < 20'000; ++k) table += "grade_" + std::to_string(k) + ", 60\n";
  const std::string words = errors_of(plan, small_field(), table);
  EXPECT_TRUE(says(words, "one more word than a factor may have")) << words.substr(0, 500);
  EXPECT_TRUE(says(words, "more errors, not shown"));
  EXPECT_LT(words.size(), 50'000u);
}

// Cases are compared with each other: they are stepped coarser than single runs, unless something says.
TEST(SweepPlanReader, CasesAreSteppedAsComparingAsksUnlessPlanOrScenarioSays) {
  const std::string key = "stepping.relative_tolerance=";
  const auto said = [&](const std::string& plan, const std::string& field) {
    std::vector<std::string> sets;
    for (const std::string& set : plan_of(plan, field).fixed)
      if (set.starts_with(key)) sets.push_back(set.substr(key.size()));
    return sets;
  };
  const std::string silent = changed(small_field(), "relative_tolerance: 1e-2, ", "");
  const std::string without =
      changed(small_field(), "stepping: {relative_tolerance: 1e-2, output_every: 0.1 m}\n", "");
  const std::string plan = small_plan();
  const std::string fixed =
      changed(plan, "seed: 7\n", "seed: 7\nfixed: {stepping.relative_tolerance: 1e-4}\n");
  using Words = std::vector<std::string>;
  EXPECT_EQ(said(plan, small_field()), Words{}) << "the scenario says";
  EXPECT_EQ(said(plan, silent), Words{"0.03"});
  EXPECT_EQ(said(plan, without), Words{"0.03"});
  EXPECT_EQ(said(fixed, silent).size(), 1u);
  EXPECT_NE(said(fixed, silent), Words{"0.03"}) << "the plan says";
}

TEST(SweepPlanReader, ErrorsOfTheScenarioAreTheScenarios) {
  const std::string errors =
      errors_of(small_plan(), changed(small_field(), "three_blade_3_3_4", "three_blade"));
  EXPECT_TRUE(says(errors, "field.yaml:2")) << errors;
}

TEST(SweepPlanReader, LibraryNumbersAreDrawnOnceEachAndWithinTheirRange) {
  const SweepPlan plan = plan_of(changed(small_plan(), "  values:\n", "  library_numbers: yes\n  values:\n"));
  EXPECT_GT(plan.draws.values.size(), 40u);
  int coefficients = 0;
  for (const UncertainValue& value : plan.draws.values) {
    coefficients += value.number == "abrasion_coefficient";
    if (value.number.empty()) continue;
    EXPECT_FALSE(value.source.empty()) << value.number;
    const double low = statistics::quantile(value.distribution, 1e-6),
                 high = statistics::quantile(value.distribution, 1.0 - 1e-6);
    EXPECT_LE(low, high) << value.number;
    if (value.number == "rock sandstone: poissons_ratio") {
      EXPECT_LE(high, 0.5);
    }
  }
  EXPECT_EQ(coefficients, 1);
}

TEST(SweepPlanReader, ATableGivesEachCaseItsRow) {
  const std::string plan =
      "scenario: field.yaml\n"
      "factors:\n"
      "  - {name: speed, path: plan.*.rotary_speed}\n"
      "  - {name: grade, path: bit.grade}\n"
      "design: {kind: table, file: table.csv}\n";
  const SweepPlan read =
      plan_of(plan, small_field(), "grade, speed [rpm]\nstandard, 60\n\npremium, \"90\"\n");
  ASSERT_EQ(read.design.rows.size(), 2u);
  EXPECT_NEAR(read.design.rows[0][0], 1.0, 1e-12) << "60 rpm is 1 rev/s";
  EXPECT_NEAR(read.design.rows[1][0], 1.5, 1e-12);
  EXPECT_EQ(read.factors[1].targets[0].words.at(static_cast<std::size_t>(read.design.rows[1][1])), "premium");
  EXPECT_TRUE(says(errors_of(plan, small_field(), "grade, spead [rpm]\nstandard, 60\n"), "table.csv:1"));
  EXPECT_TRUE(says(errors_of(plan, small_field(), "grade, speed [rpm]\nstandard\n"), "table.csv:2"));
  EXPECT_TRUE(says(errors_of(plan, small_field(), "grade, speed [rpm]\nstandard, fast\n"), "table.csv:2"));
  EXPECT_TRUE(says(errors_of(plan, small_field(), "grade, speed [rpm]\n"), "no cases"));
}

TEST(SweepPlanReader, ANumberWithASpaceIsRefusedInValuesDrawsAndTables) {
  const auto spaced = [](const std::string& plan, const std::string& table = "") {
    return says(errors_of(plan, small_field(), table), "a number without spaces or commas");
  };
  EXPECT_TRUE(
      spaced(changed(small_plan(), "multiply: yes, values: [0.8, 1.2]", "values: [1 500 lbf, 1 800 lbf]")));
  EXPECT_TRUE(
      spaced(changed(small_plan(), "multiply: yes, values: [0.8, 1.2]", "values: [1500 lbf, 1 800 lbf]")));
  EXPECT_TRUE(spaced(changed(small_plan(), "mean: 15 degC", "mean: 1 5 degC")));
  EXPECT_TRUE(spaced(changed(small_plan(), "mean_spacing: 2 m", "mean_spacing: 1 2 m")));
  const std::string by_table =
      "scenario: field.yaml\n"
      "factors:\n"
      "  - {name: speed, path: plan.*.rotary_speed}\n"
      "design: {kind: table, file: table.csv}\n";
  EXPECT_EQ(errors_of(by_table, small_field(), "speed\n80 rpm\n"), "");
  EXPECT_TRUE(spaced(by_table, "speed\n1 20 rpm\n"));
  EXPECT_TRUE(says(errors_of(by_table, small_field(), "speed [rpm]\n1 20\n"), "is no value"));
  // A chamfer begins with a number and is a word.
  EXPECT_EQ(errors_of(changed(small_plan(), "path: bit.grade, values: [standard, premium]",
                              "path: bit.cutter.chamfer, values: [0.4 mm x 45 deg, none]")),
            "");
}

TEST(SweepPlanReader, TablesAndWordsThatAreNoPlainTextAreRefused) {
  const std::string plan =
      "scenario: field.yaml\n"
      "factors:\n"
      "  - {name: grade, path: bit.grade}\n"
      "design: {kind: table, file: table.csv}\n";
  EXPECT_TRUE(
      says(errors_of(plan, small_field(), "grade\nstandard\npr\xffmium\n"), "table.csv:3:3: is not UTF-8"));
  EXPECT_TRUE(
      says(errors_of(plan, small_field(), "grade\npre\x1bmium\n"), "table.csv:2:1: grade: \"pre\\x1bmium\""));
  EXPECT_TRUE(says(errors_of("title: \"a\\eb\"\n" + std::string(small_plan()).substr(19)),
                   "title: \"a\\x1bb\" holds"));
}

}  // namespace
}  // namespace dullcast::sweep
