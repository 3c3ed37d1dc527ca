#pragma once

#include <memory>
#include <string>
#include <vector>

#include "engine/input/scenario_reader.hpp"
#include "engine/storage/sweep_table.hpp"
#include "engine/sweep/base_cache.hpp"
#include "engine/sweep/case_reader.hpp"
#include "engine/sweep/design.hpp"
#include "engine/sweep/sweep_plan.hpp"
#include "engine/sweep/sweep_plan_reader.hpp"

namespace dullcast::sweep {

/// One what-if: the inputs that make it, as the results list them.
struct Case {
  long number = 0;           // from 1
  long point = 0, draw = 0;  // from 1
  Eigen::ArrayXd inputs;     // one per input column of the maker; word columns by index
};

/// Makes any case of a sweep from its number alone. One per thread. What was made before changes how fast a
/// case is made, never what it is: cases that differ only by numbers are copies of a scenario read once, with
/// their numbers set (PatchedBase); all others are read as texts (CaseReader).
class CaseMaker {
 public:
  /// Throws ScenarioErrors when the plan, its scenario or the library cannot be used; what is unwise goes to
  /// `warnings`.
  CaseMaker(const SweepTexts& texts, std::vector<input::Warning>& warnings);

  const SweepPlan& plan() const { return plan_; }
  long points() const { return design_->points(); }
  long cases() const { return design_->points() * plan_.draws.runs; }
  const std::string& currency() const { return currency_; }

  /// Name, unit, meaning and role of every input: coordinates (designs made for sensitivities), settings,
  /// then what is drawn.
  const std::vector<storage::SweepColumn>& inputs() const { return inputs_; }

  /// The inputs of case `number`, counted from 1. Throws std::out_of_range outside.
  Case make_case(long number) const;

  /// The scenario of a case, ready to run. Its lenses are counted into the case's inputs. Throws
  /// ScenarioErrors when the case's values make no scenario.
  scenario::Scenario make_scenario(Case& one) const;

  /// The same but for the resolved text, which only those need who store or show it; `into` is written over
  /// and its memory used again.
  void make_scenario(Case& one, scenario::Scenario& into) const;

  /// Whether cases are made by setting numbers where they can. All are read as texts without, for who
  /// compares the two.
  void patch(bool yes) { patches_ = yes; }

 private:
  void list_inputs(const scenario::Scenario& base);
  void find_what_is_patched();
  void draw_ground(Case& one, scenario::Scenario& scenario) const;
  double factor_value(const FactorTarget& target, const Factor& factor, double u) const;

  SweepTexts texts_;
  std::unique_ptr<input::ScenarioReader> reader_;
  SweepPlan plan_;
  std::unique_ptr<Design> design_;
  std::string currency_;
  std::vector<storage::SweepColumn> inputs_;
  std::unique_ptr<CaseReader> cases_;
  std::unique_ptr<BaseCache> bases_;  // null where every case is to be read
  bool patches_ = true;
  Eigen::Index first_setting_ = 0, first_drawn_ = 0;  // columns of the inputs
  std::size_t base_layers_ = 0;
  int axes_ = 0;
};

}  // namespace dullcast::sweep
