#include "engine/sweep/case_maker.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <set>
#include <stdexcept>

#include "engine/input/any_quantity.hpp"
#include "engine/input/scenario_writer.hpp"
#include "engine/statistics/correlated_shares.hpp"
#include "engine/statistics/counter_random.hpp"
#include "engine/sweep/case_outcome.hpp"
#include "engine/sweep/ground_realisation.hpp"
#include "engine/sweep/streams.hpp"

namespace dullcast::sweep {
namespace {

constexpr double nothing = std::numeric_limits<double>::quiet_NaN();

std::uint64_t unsigned_of(long value) {
  return static_cast<std::uint64_t>(value);
}

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : ", ") + word;
  return text;
}

storage::SweepColumn column_of(const FactorTarget& target) {
  storage::SweepColumn column;
  column.name = target.name;
  column.role = storage::ColumnRole::setting;
  column.units = target.dimension && !target.scales ? input::units_in_file(*target.dimension) : "1";
  if (!target.words.empty()) column.units = "1";
  column.meaning = (target.scales ? "what multiplies " : "") + joined(target.paths);
  column.words = target.words;
  return column;
}

/// An even number of bits of one long for a run's own seed.
long run_seed(std::uint64_t seed, std::uint64_t draw) {
  const auto words =
      statistics::philox4x32_10({static_cast<std::uint32_t>(draw), static_cast<std::uint32_t>(draw >> 32), 0,
                                 static_cast<std::uint32_t>(Purpose::run_seed)},
                                {static_cast<std::uint32_t>(seed), static_cast<std::uint32_t>(seed >> 32)});
  return static_cast<long>(((std::uint64_t{words[1]} << 32) | words[0]) >> 16);
}

/// Every column of a sweep's results has a name of its own: told before anything is run, for the file is
/// written when all is.
void check_names(const std::vector<storage::SweepColumn>& inputs, const std::string& plan_file) {
  std::set<std::string> names{"case", "point", "draw"};
  for (const storage::SweepColumn& outcome : outcome_columns()) names.insert(outcome.name);
  const std::set<std::string> own = names;
  const auto put = [&](const std::string& name) {
    if (names.insert(name).second) return;
    throw std::invalid_argument(
        plan_file + ": " +
        (own.count(name) > 0
             ? "\"" + name + "\" heads a column of every sweep's results"
             : "two of the factors and draws would head the column \"" + name + "\" of the results") +
        "; give the factor or the drawn value another name:");
  };
  // Coordinates last: they are called after the others, whose names the plan has.
  for (const bool coordinates : {false, true}) {
    for (const storage::SweepColumn& input : inputs) {
      if ((input.role == storage::ColumnRole::coordinate) == coordinates) put(input.name);
    }
  }
}

}  // namespace

CaseMaker::CaseMaker(const SweepTexts& texts, std::vector<input::Warning>& warnings)
    : texts_(texts), reader_(std::make_unique<input::ScenarioReader>(texts.library)) {
  plan_ = read_sweep_plan(texts_, *reader_, warnings);
  std::vector<input::Warning> said;
  const scenario::Scenario base =
      reader_->read_text(texts_.scenario, texts_.scenario_file, plan_.fixed, said);
  currency_ = base.costs.currency;
  base_layers_ = base.column.layers.size();
  axes_ = static_cast<int>(plan_.factors.size());
  if (plan_.design.with_uncertain) axes_ += static_cast<int>(plan_.draws.values.size());
  design_ = std::make_unique<Design>(plan_, axes_);
  list_inputs(base);
  check_names(inputs_, texts_.plan_file);
  cases_ = std::make_unique<CaseReader>(texts_, plan_, *reader_, first_setting_, first_drawn_);
  find_what_is_patched();
}

void CaseMaker::find_what_is_patched() {
  // By the first case that makes a scenario at all; where neither end of the sweep does, each is read.
  for (const long number : {1L, cases()}) {
    try {
      const Case usual = make_case(number);
      bases_ = std::make_unique<BaseCache>(usual.inputs, patched_columns(*cases_, usual.inputs));
      return;
    } catch (const std::exception&) {
      // told by the case itself when its turn comes
    }
  }
}

void CaseMaker::list_inputs(const scenario::Scenario& base) {
  const bool sensitivity =
      plan_.design.kind == DesignKind::elementary_effects || plan_.design.kind == DesignKind::variance_shares;
  if (sensitivity) {
    const auto axis = [&](const std::string& name) {
      inputs_.push_back({"coordinate_" + name,
                         "1",
                         "place of " + name + " in the design, 0 to 1",
                         storage::ColumnRole::coordinate,
                         {},
                         {}});
    };
    for (const Factor& factor : plan_.factors) axis(factor.name);
    for (const UncertainValue& value : plan_.draws.values) axis(value.name);
  }
  first_setting_ = static_cast<Eigen::Index>(inputs_.size());
  for (const Factor& factor : plan_.factors) {
    for (const FactorTarget& target : factor.targets) inputs_.push_back(column_of(target));
  }
  first_drawn_ = static_cast<Eigen::Index>(inputs_.size());
  for (const UncertainValue& value : plan_.draws.values) {
    const std::string what = value.number.empty() ? joined(value.paths) : value.number;
    inputs_.push_back({value.name,
                       input::units_in_file(*value.dimension),
                       what + ": " + statistics::distribution_words(value.distribution),
                       storage::ColumnRole::uncertain,
                       {},
                       {}});
  }
  if (plan_.draws.layers) {
    for (const char* what : {"strength", "abrasivity"}) {
      for (std::size_t k = 0; k < base_layers_; ++k) {
        const std::string layer = std::to_string(k + 1) + " (" + base.column.layers[k].rock.name + ")";
        inputs_.push_back({std::string(what) + "_factor_layer_" + std::to_string(k + 1),
                           "1",
                           std::string(storage::multiplies_the) + what + " of layer " + layer,
                           storage::ColumnRole::uncertain,
                           {},
                           {}});
      }
    }
  }
  for (std::size_t k = 0; k < plan_.draws.lenses.size(); ++k) {
    const Lenses& lenses = plan_.draws.lenses[k];
    inputs_.push_back({"lenses_" + std::to_string(k + 1),
                       "1",
                       "lenses of " + lenses.rock + std::string(storage::met_by_chance),
                       storage::ColumnRole::uncertain,
                       {},
                       {}});
  }
}

double CaseMaker::factor_value(const FactorTarget& target, const Factor& factor, double u) const {
  if (factor.listed) {
    const auto level =
        std::min(static_cast<std::size_t>(u * static_cast<double>(factor.levels)), factor.levels - 1);
    return target.values[level];
  }
  if (plan_.design.kind == DesignKind::grid) {
    // Steps from end to end.
    const double steps = static_cast<double>(factor.levels);
    const double step = std::min(std::floor(u * steps), steps - 1.0);
    return target.from + (target.to - target.from) * step / (steps - 1.0);
  }
  return target.from + u * (target.to - target.from);
}

Case CaseMaker::make_case(long number) const {
  if (number < 1 || number > cases()) throw std::out_of_range("there is no case " + std::to_string(number));
  Case made;
  made.number = number;
  const long p = (number - 1) / plan_.draws.runs, j = (number - 1) % plan_.draws.runs;
  made.point = p + 1;
  made.draw = j + 1;
  made.inputs = Eigen::ArrayXd::Constant(static_cast<Eigen::Index>(inputs_.size()), nothing);
  const Eigen::ArrayXd u = design_->point(p);
  if (first_setting_ > 0) made.inputs.head(axes_) = u;  // coordinates
  Eigen::Index column = first_setting_;
  std::size_t in_row = 0;
  for (std::size_t f = 0; f < plan_.factors.size(); ++f) {
    const Factor& factor = plan_.factors[f];
    for (const FactorTarget& target : factor.targets) {
      made.inputs(column++) = plan_.design.kind == DesignKind::table
                                  ? plan_.design.rows[static_cast<std::size_t>(p)][in_row++]
                                  : factor_value(target, factor, u(static_cast<Eigen::Index>(f)));
    }
  }
  const std::uint64_t draw = unsigned_of(plan_.draws.same_for_every_point ? j : number - 1);
  std::vector<double> shares;
  for (std::size_t v = 0; v < plan_.draws.values.size(); ++v) {
    shares.push_back(
        plan_.design.with_uncertain
            ? u(static_cast<Eigen::Index>(plan_.factors.size() + v))
            : statistics::uniform_at(unsigned_of(plan_.seed), stream_of(Purpose::values, v), draw));
  }
  // A sensitivity is of axes that are independent by their meaning.
  const bool sensitivity =
      plan_.design.kind == DesignKind::elementary_effects || plan_.design.kind == DesignKind::variance_shares;
  if (plan_.draws.together.size() > 0 && !sensitivity)
    statistics::make_go_together(shares, plan_.draws.together);
  for (std::size_t v = 0; v < plan_.draws.values.size(); ++v)
    made.inputs(column++) = statistics::quantile(plan_.draws.values[v].distribution, shares[v]);
  return made;
}

scenario::Scenario CaseMaker::make_scenario(Case& one) const {
  scenario::Scenario scenario;
  make_scenario(one, scenario);
  scenario.text = input::resolved_text(scenario);
  return scenario;
}

void CaseMaker::make_scenario(Case& one, scenario::Scenario& into) const {
  const PatchedBase* base = patches_ && bases_ ? bases_->base_for(*cases_, one.inputs) : nullptr;
  if (!base || !base->make(one.inputs, into)) into = cases_->read(one.inputs);
  draw_ground(one, into);
  into.title += ", case " + std::to_string(one.number) + " of " + plan_.title;
}

void CaseMaker::draw_ground(Case& one, scenario::Scenario& scenario) const {
  const std::uint64_t seed = unsigned_of(plan_.seed);
  const std::uint64_t draw = unsigned_of(plan_.draws.same_for_every_point ? one.draw - 1 : one.number - 1);
  Eigen::Index column = first_drawn_;
  column += static_cast<Eigen::Index>(plan_.draws.values.size());
  if (plan_.draws.layers) {
    if (scenario.column.layers.size() != base_layers_) {
      throw input::ScenarioErrors(
          {"case " + std::to_string(one.number) +
           ": has another number of layers than the plan's scenario, so layers cannot be drawn"});
    }
    const LayerFactors factors = layer_factors(scenario.column, *plan_.draws.layers, seed, draw);
    apply_factors(scenario.column, factors);
    const auto layers = static_cast<Eigen::Index>(base_layers_);
    one.inputs.segment(column, layers) = factors.strength;
    one.inputs.segment(column + layers, layers) = factors.abrasivity;
    column += 2 * layers;
  }
  for (std::size_t k = 0; k < plan_.draws.lenses.size(); ++k) {
    const Lenses& lenses = plan_.draws.lenses[k];
    const scenario::RockRecord& rock = reader_->library().rocks.at(lenses.rock);
    one.inputs(column++) = lay_lenses(scenario.column, lenses, rock, k, seed, draw);
  }
  if (plan_.draws.random_events_drawn) scenario.random_events.drawn = *plan_.draws.random_events_drawn;
  if (scenario.random_events.drawn) scenario.random_events.seed = run_seed(seed, draw);
}

}  // namespace dullcast::sweep
