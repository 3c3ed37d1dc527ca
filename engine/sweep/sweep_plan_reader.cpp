#include "engine/sweep/sweep_plan_reader.hpp"

#include <algorithm>
#include <cctype>
#include <filesystem>

#include "engine/base/words.hpp"
#include "engine/input/set_values.hpp"
#include "engine/sweep/draws_reader.hpp"
#include "engine/sweep/factor_reader.hpp"

namespace dullcast::sweep {
namespace {

constexpr long most_cases = 1'000'000'000'000;
constexpr int most_rows = 10'000;
constexpr const char* sweep_tolerance = "0.03";

const std::vector<std::string>& design_words() {
  static const std::vector<std::string> words{"grid",  "latin_hypercube",    "sobol_sequence",
                                              "table", "elementary_effects", "variance_shares"};
  return words;
}

std::string beside(const std::string& file, const std::string& name) {
  return (std::filesystem::path(file).parent_path() / name).lexically_normal().string();
}

input::YamlValue parse_plan(const std::string& text, const std::string& file, input::Problems& problems) {
  input::YamlValue root = input::parse_yaml(text, file, problems);
  if (!root.is_map() && !problems.any_error()) {
    problems.error(
        {file, 1, 1}, "",
        "holds " + input::kind_name(root) + "; a plan is a map with scenario:, factors: and design:");
  }
  return root;
}

DesignChoice read_design(input::MapReader& plan) {
  DesignChoice design;
  input::MapReader map = plan.map("design");
  if (!plan.has("design")) {
    map.finish();
    return design;
  }
  if (!map.has("kind")) map.error("kind", "is missing; write " + base::one_of(design_words()));
  design.kind = static_cast<DesignKind>(map.choice("kind", design_words()).value_or(0));
  const auto wants = [&](const char* key, bool wanted, const char* example) {
    if (wanted && !map.has(key)) map.error(key, std::string("is missing; write ") + key + ": " + example);
    if (!wanted && map.has(key)) map.error(key, "does not belong to a design of this kind");
  };
  const bool sampled =
      design.kind == DesignKind::latin_hypercube || design.kind == DesignKind::sobol_sequence;
  const bool shares = design.kind == DesignKind::variance_shares,
             trajectories = design.kind == DesignKind::elementary_effects;
  wants("points", sampled || shares, "256");
  wants("walks", trajectories, "20");
  wants("file", design.kind == DesignKind::table, "cases.csv");
  design.points = map.long_whole_number("points", 1, most_cases).value_or(0);
  design.trajectories = map.whole_number("walks", 2, 1'000'000).value_or(0);
  if (map.has("levels") && !trajectories) wants("levels", false, "");
  design.levels = map.whole_number("levels", 2, 1000).value_or(4);
  if (design.levels % 2 != 0)
    map.error("levels", "is an even number, so that every level is met equally often");
  design.table = map.word("file").value_or("");
  const auto with = map.yes_or_no("with_uncertain");
  if (with && !sampled)
    map.error("with_uncertain", shares || trajectories ? "goes without saying in this design"
                                                       : "belongs to latin_hypercube and sobol_sequence");
  design.with_uncertain = with.value_or(false) || shares || trajectories;
  map.finish();
  return design;
}

KeptHistories read_histories(input::MapReader& plan) {
  KeptHistories kept;
  input::MapReader map = plan.map("histories");
  const auto& items = map.list("cases");
  for (std::size_t i = 0; i < items.size(); ++i) {
    const std::string path = "histories.cases." + std::to_string(i);
    if (const auto number = input::read_number(items[i], path, base::dimension::number,
                                               {1.0, 1e12, true, "1 or more"}, plan.reading())) {
      kept.cases.push_back(static_cast<long>(*number));
    }
  }
  std::sort(kept.cases.begin(), kept.cases.end());
  kept.every = map.long_whole_number("every", 1, most_cases).value_or(0);
  kept.rows = map.whole_number("rows", 2, most_rows).value_or(kept.rows);
  map.finish();
  return kept;
}

std::string set_of(const input::YamlEntry& entry) {
  return entry.key + "=" + input::yaml_quoted(entry.value.text);
}

/// Puts what the texts say of the bit's start in the place of what the plan fixes of the same keys.
void put_start(const std::vector<std::string>& start, std::vector<std::string>& fixed) {
  const auto key_of = [](const std::string& set) { return set.substr(0, set.find('=')); };
  for (const std::string& set : start) {
    std::erase_if(fixed, [&](const std::string& other) { return key_of(other) == key_of(set); });
    fixed.push_back(set);
  }
}

/// Cases are compared with each other, by the thousand: where neither plan nor scenario says how finely they
/// are stepped, they are stepped as finely as that asks for. Worn height and life are known to some
/// thousandths then, chip hazards to a hundredth.
void put_tolerance(const input::YamlValue& scenario, std::vector<std::string>& fixed) {
  const std::string key = "stepping.relative_tolerance";
  if (!scenario.is_map()) return;
  const input::YamlEntry* stepping = scenario.find("stepping");
  if (stepping && (!stepping->value.is_map() || stepping->value.find("relative_tolerance"))) return;
  const auto says = [](const std::string& set, const std::string& of) {
    return set.substr(0, set.find('=')) == of;
  };
  for (const std::string& set : fixed)
    if (says(set, key) || says(set, "stepping")) return;
  fixed.push_back(key + "=" + sweep_tolerance);
}

/// "path=value" of every entry of a map of paths and plain values.
std::vector<std::string> read_fixed(input::MapReader& plan) {
  std::vector<std::string> sets;
  const input::YamlValue* value = plan.find("fixed");
  if (!value) return sets;
  if (!value->is_map()) {
    plan.error("fixed",
               "is " + input::kind_name(*value) + "; write paths and values, such as {repeat.holes: 10}");
    return sets;
  }
  for (const input::YamlEntry& entry : value->entries) {
    if (!entry.value.is_scalar()) {
      plan.reading().problems.error(entry.value.location, "fixed." + entry.key,
                                    "is " + input::kind_name(entry.value) + "; write one value or word");
      continue;
    }
    sets.push_back(set_of(entry));
  }
  return sets;
}

/// draws.chance goes for every run, whatever a factor or a draw says.
void refuse_two_words_on_chance(input::MapReader& plan, const SweepPlan& read) {
  if (!read.draws.random_events_drawn) return;
  const auto is_chance = [](const std::string& path) { return path == "chance" || path == "chance.draw"; };
  const auto moves = [&](const std::vector<std::string>& paths) {
    return std::any_of(paths.begin(), paths.end(), is_chance);
  };
  for (const Factor& factor : read.factors) {
    for (const FactorTarget& target : factor.targets) {
      if (moves(target.paths))
        plan.error("factors", target.name +
                                  " moves chance, but draws.chance settles it for every run; keep one "
                                  "of them");
    }
  }
}

void check_size(input::MapReader& plan, const SweepPlan& read) {
  const auto axes = static_cast<double>(read.factors.size() + read.draws.values.size());
  double points = 1.0;
  switch (read.design.kind) {
    case DesignKind::grid:
      for (const Factor& factor : read.factors) points *= static_cast<double>(factor.levels);
      break;
    case DesignKind::table:
      points = static_cast<double>(read.design.rows.size());
      break;
    case DesignKind::latin_hypercube:
    case DesignKind::sobol_sequence:
      points = static_cast<double>(read.design.points);
      break;
    case DesignKind::elementary_effects:
      points = read.design.trajectories * (axes + 1.0);
      break;
    case DesignKind::variance_shares:
      points = static_cast<double>(read.design.points) * (axes + 2.0);
      break;
  }
  if (points * read.draws.runs > static_cast<double>(most_cases)) {
    plan.error("design", "asks for more than 10^12 runs");
  }
}

}  // namespace

const char* design_word(DesignKind kind) {
  return design_words()[static_cast<std::size_t>(kind)].c_str();
}

std::string column_name(const std::string& words) {
  std::string name;
  for (const char c : words) {
    if (std::isalnum(static_cast<unsigned char>(c)) || c == '_') {
      name += c;
    } else if (!name.empty() && name.back() != '_') {
      name += '_';
    }
  }
  while (!name.empty() && name.back() == '_') name.pop_back();
  return name.empty() || std::isdigit(static_cast<unsigned char>(name.front())) ? "value_" + name : name;
}

PlanNames names_in_plan(const std::string& plan_text, const std::string& plan_file) {
  input::Problems problems;
  const input::YamlValue root = parse_plan(plan_text, plan_file, problems);
  problems.throw_if_any();
  PlanNames names;
  const input::YamlEntry* scenario = root.find("scenario");
  if (!scenario || !scenario->value.is_scalar()) {
    problems.error({plan_file, 1, 1}, "scenario", "is missing; write the scenario file that the plan varies");
    problems.throw_if_any();
  }
  names.scenario = beside(plan_file, scenario->value.text);
  const input::YamlEntry* design = root.find("design");
  const input::YamlEntry* table = design ? design->value.find("file") : nullptr;
  if (table && table->value.is_scalar()) names.table = beside(plan_file, table->value.text);
  const input::YamlEntry* fixed = root.find("fixed");
  for (const input::YamlEntry& entry : fixed ? fixed->value.entries : std::vector<input::YamlEntry>{}) {
    if (entry.value.is_scalar()) names.fixed.push_back(set_of(entry));
  }
  return names;
}

SweepPlan read_sweep_plan(const SweepTexts& texts, const input::ScenarioReader& reader,
                          std::vector<input::Warning>& warnings) {
  input::Problems problems;
  const input::YamlValue root = parse_plan(texts.plan, texts.plan_file, problems);
  problems.throw_if_any();
  input::Reading reading{reader.units(), problems, "$", nullptr, reader.keys()};
  input::MapReader map(root, "", reading, {texts.plan_file, 1, 1});
  SweepPlan plan;
  plan.file = std::filesystem::path(texts.plan_file).lexically_normal().string();
  plan.scenario = texts.scenario_file;
  plan.title = map.word("title").value_or(std::filesystem::path(plan.file).stem().string());
  map.word("scenario");
  plan.seed = map.long_whole_number("seed", 0, 1'000'000'000'000'000).value_or(1);
  plan.fixed = read_fixed(map);
  problems.throw_if_any();
  put_start(texts.start, plan.fixed);
  put_tolerance(input::parse_yaml(texts.scenario, texts.scenario_file, problems), plan.fixed);

  // The base scenario, which the rest is read against; its own errors end the reading.
  const scenario::Scenario scenario =
      reader.read_text(texts.scenario, texts.scenario_file, plan.fixed, warnings);
  if (!scenario.bit.continues.empty()) {
    map.error("scenario",
              "goes on from an earlier result (bit.continues), which was not read; state its wear under "
              "bit.starting_wear");
  }
  if (scenario.calibrate_from) {
    map.error("scenario",
              "learns from an inspected bit (calibrate_from), which a sweep cannot; state the abrasion "
              "coefficient found under models:");
  }
  input::YamlValue tree = input::parse_yaml(texts.scenario, texts.scenario_file, problems);
  input::apply_sets(plan.fixed, tree, problems);
  reading.currency = scenario.costs.currency;

  plan.design = read_design(map);
  plan.factors = read_factors(map, tree, plan.design.kind);
  // A design that spreads its points over the unknown is a forecast: what it does not spread over (layers,
  // lenses, luck) is drawn afresh for each. Settings, and sensitivities, are compared on the same rock.
  const bool spread = plan.design.with_uncertain && (plan.design.kind == DesignKind::latin_hypercube ||
                                                     plan.design.kind == DesignKind::sobol_sequence);
  plan.draws = read_draws(map, scenario, tree, reader.library(), !spread);
  refuse_two_words_on_chance(map, plan);
  plan.histories = read_histories(map);
  plan.cases_per_chunk = map.long_whole_number("cases_per_chunk", 1, most_cases_per_chunk).value_or(0);
  map.finish();
  if (plan.design.kind == DesignKind::table && !problems.any_error()) {
    read_design_table(texts.table, texts.table_file, reading, plan.factors, plan.design);
  }
  if (plan.design.with_uncertain && plan.draws.runs > 1) {
    map.error("draws", "says runs: " + std::to_string(plan.draws.runs) +
                           ", but this design draws the uncertain values itself; leave runs out");
  }
  if (plan.factors.empty() && plan.draws.runs == 1 &&
      !(plan.design.with_uncertain && !plan.draws.values.empty())) {
    map.error("factors", "is missing, and nothing is drawn: the plan holds a single run");
  }
  if (plan.factors.empty() && plan.design.kind != DesignKind::grid && !plan.design.with_uncertain) {
    map.error("design", "has no factors to spread its points over");
  }
  check_size(map, plan);
  problems.throw_if_any();
  warnings.insert(warnings.end(), problems.warnings().begin(), problems.warnings().end());
  return plan;
}

}  // namespace dullcast::sweep
