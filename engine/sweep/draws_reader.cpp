#include "engine/sweep/draws_reader.hpp"

#include <algorithm>
#include <set>

#include "engine/base/words.hpp"
#include "engine/input/any_quantity.hpp"
#include "engine/input/yaml_paths.hpp"
#include "engine/scenario/number_fields.hpp"
#include "engine/statistics/correlated_shares.hpp"
#include "engine/sweep/factor_reader.hpp"
#include "engine/sweep/sweep_plan_reader.hpp"

namespace dullcast::sweep {
namespace {

constexpr int most_draws = 100'000'000;
constexpr base::Range spread_range{0.0, 3.0, true, "from 0 to 3, a standard deviation of the logarithm"};
// Closer, and they are no lenses in a rock but a rock of its own.
constexpr base::Range spacing_range{0.1, 1e6, true, "from 0.1 m to 1000 km"};
constexpr base::Range correlation_range{-1.0, 1.0, true, "from -1 to 1"};

struct Kind {
  const char* word;
  statistics::Distribution::Kind kind;
  std::vector<const char*> keys;
};

const std::vector<Kind>& kinds() {
  using K = statistics::Distribution::Kind;
  static const std::vector<Kind> all{{"fixed", K::fixed, {"value"}},
                                     {"normal", K::normal, {"mean", "deviation"}},
                                     {"lognormal", K::lognormal, {"median", "spread"}},
                                     {"uniform", K::uniform, {"from", "to"}},
                                     {"triangular", K::triangular, {"least", "likeliest", "most"}},
                                     {"percentiles", K::percentiles, {"p10", "p50", "p90"}}};
  return all;
}

std::string source_of(input::MapReader& map) {
  const auto source = map.remark("source");
  if (!source || source->empty()) {
    map.error("source", "is missing; say where the spread comes from, or source: invented");
  }
  return source.value_or("");
}

/// The parameters that are differences of the value rather than values.
const base::Dimension& dimension_of_key(const char* key, const base::Dimension& wanted) {
  if (std::string_view(key) == "spread") return base::dimension::number;
  const bool difference = std::string_view(key) == "deviation";
  if (difference && wanted.rule == base::UnitRule::temperature)
    return base::dimension::temperature_difference;
  return wanted;
}

/// All numbers of the scenario by name.
std::vector<std::pair<std::string, scenario::Quantity>> numbers_of(const scenario::Scenario& scenario) {
  scenario::Scenario copy = scenario;
  std::vector<std::pair<std::string, scenario::Quantity>> numbers;
  scenario::for_each_number(copy, [&](const std::string& name, scenario::Quantity& quantity) {
    numbers.emplace_back(name, quantity);
  });
  return numbers;
}

UncertainValue of_library(const std::string& name, const scenario::Quantity& quantity) {
  UncertainValue value;
  value.name = column_name(name);
  value.number = name;
  const auto kind = scenario::kind_of_number(name);
  value.dimension = kind->wanted;
  // The tails end where the number ceases to make sense.
  value.distribution = {statistics::Distribution::Kind::percentiles,
                        quantity.low,
                        quantity.central,
                        quantity.high,
                        kind->range.least,
                        kind->range.most};
  value.source = quantity.source;
  value.of_library = true;
  return value;
}

UncertainValue read_value(input::MapReader& map,
                          const std::vector<std::pair<std::string, scenario::Quantity>>& numbers,
                          const input::YamlValue& tree) {
  UncertainValue value;
  value.currency = map.reading().currency;
  const auto number = map.word("number"), path = map.word("path");
  if (number.has_value() == path.has_value()) {
    map.error("", "needs either number: (a number of the library, as dullcast doubts names it) or path:");
  }
  bool from_library = false;
  if (number) {
    value.number = *number;
    value.name = column_name(*number);
    const auto found =
        std::find_if(numbers.begin(), numbers.end(), [&](const auto& n) { return n.first == *number; });
    if (found == numbers.end()) {
      std::vector<std::string> names;
      for (const auto& each : numbers) names.push_back(each.first);
      const std::string nearest = base::nearest_word(*number, names);
      map.error("number", "\"" + *number + "\" is no number of the scenario" +
                              (nearest.empty() ? "; dullcast doubts --all names them"
                                               : "; did you mean \"" + nearest + "\"?"));
    } else {
      value.dimension = scenario::dimension_of_number(*number);
      from_library = !map.has("kind");
      if (from_library) {
        value.distribution = of_library(found->first, found->second).distribution;
        value.source = found->second.source;
        value.of_library = true;
      }
    }
  } else if (path) {
    value.paths = opened_paths(map, "path", *path, tree);
    value.name = column_name(*path);
  }
  if (const auto name = map.word("name")) value.name = column_name(*name);
  if (!from_library) {
    value.distribution = read_distribution(map, value.dimension);
    value.source = source_of(map);
  } else {
    map.find("source");
  }
  map.finish();
  return value;
}

void read_values(input::MapReader& draws, const scenario::Scenario& scenario, const input::YamlValue& tree,
                 Draws& into) {
  const auto numbers = numbers_of(scenario);
  const auto& items = draws.list("values");
  for (std::size_t i = 0; i < items.size(); ++i) {
    input::MapReader map(items[i], "draws.values." + std::to_string(i), draws.reading(), draws.location());
    into.values.push_back(read_value(map, numbers, tree));
  }
  if (draws.yes_or_no("library_numbers").value_or(false)) {
    for (const auto& [name, quantity] : numbers) {
      const bool own = std::any_of(into.values.begin(), into.values.end(),
                                   [&name = name](const UncertainValue& v) { return v.number == name; });
      if (!own && quantity.low < quantity.high) into.values.push_back(of_library(name, quantity));
    }
  }
  std::set<std::string> names;
  for (const UncertainValue& value : into.values) {
    if (!value.name.empty() && !names.insert(value.name).second) {
      draws.error("values", "has two that would head the column " + value.name + "; give one a name:");
    }
  }
}

/// Values drawn by a law of the plan's own stand alone.
Eigen::MatrixXd root_of_values(const scenario::NumbersTogether& together,
                               const std::vector<UncertainValue>& values) {
  std::vector<std::string> names;
  bool any = false;
  for (const UncertainValue& value : values) {
    names.push_back(value.of_library ? value.number : "");
    any = any || (value.of_library && std::find(together.names.begin(), together.names.end(), value.number) !=
                                          together.names.end());
  }
  if (!any) return {};
  return statistics::correlation_root(scenario::correlation_of(together, names));
}

LayerSpread read_layers(input::MapReader map) {
  LayerSpread layers;
  layers.strength = map.number_or("strength_spread", base::dimension::number, spread_range, 0.0);
  layers.abrasivity = map.number_or("abrasivity_spread", base::dimension::number, spread_range, 0.0);
  layers.together = map.number_or("together", base::dimension::number, correlation_range, 0.0);
  layers.correlation_depth =
      map.number_or("correlation_depth", base::dimension::depth, base::range::not_negative, 0.0);
  layers.source = source_of(map);
  if (!(layers.strength > 0.0 || layers.abrasivity > 0.0)) {
    map.error("strength_spread", "is missing, and abrasivity_spread too; one of them makes layers differ");
  }
  map.finish();
  return layers;
}

Lenses read_lenses(input::MapReader map, const scenario::Scenario& scenario, const input::Library& library) {
  Lenses lenses;
  lenses.rock = map.word("rock").value_or("");
  if (lenses.rock.empty()) {
    map.error("rock", "is missing; write the rock that the lenses are made of");
  } else {
    input::named_record(map, "rock", "rock", lenses.rock, library.rocks);
  }
  for (const input::YamlValue& item : map.list("in")) {
    lenses.in.push_back(item.text);
    const auto& layers = scenario.column.layers;
    if (std::none_of(layers.begin(), layers.end(),
                     [&](const scenario::Layer& layer) { return layer.rock.name == item.text; })) {
      map.error("in", "\"" + item.text + "\" is no rock of the column");
    }
  }
  lenses.mean_spacing = map.required("mean_spacing", base::dimension::depth, spacing_range);
  const base::Dimension* wanted = &base::dimension::length;
  if (map.has("thickness") && map.find("thickness")->is_map()) {
    input::MapReader thickness = map.map("thickness");
    lenses.thickness = read_distribution(thickness, wanted);
    thickness.finish();
  } else {
    lenses.thickness.a = map.required("thickness", base::dimension::length, base::range::above_zero, "6 in");
  }
  lenses.source = source_of(map);
  map.finish();
  return lenses;
}

}  // namespace

statistics::Distribution read_distribution(input::MapReader& map, const base::Dimension*& wanted) {
  std::vector<std::string> words;
  for (const Kind& kind : kinds()) words.emplace_back(kind.word);
  if (!map.has("kind")) map.error("kind", "is missing; write " + base::one_of(words));
  const auto chosen = map.choice("kind", words);
  statistics::Distribution distribution;
  if (!chosen) {
    for (const Kind& kind : kinds()) {
      for (const char* key : kind.keys) map.find(key);
    }
    return distribution;
  }
  const Kind& kind = kinds()[*chosen];
  distribution.kind = kind.kind;
  if (!wanted) {
    if (const auto text = map.word(kind.keys.front())) {
      if (const auto value = input::value_of_any_kind(map.reading().units, *text, map.reading().currency)) {
        wanted = value->dimension;
      }
    }
    if (!wanted) {
      map.error(kind.keys.front(),
                "is no value with a unit; write a number without spaces or commas, such as 15 degC");
      return distribution;
    }
  }
  double* places[] = {&distribution.a, &distribution.b, &distribution.c};
  const std::size_t before = map.reading().problems.error_count();
  for (std::size_t k = 0; k < kind.keys.size(); ++k) {
    const char* key = kind.keys[k];
    const bool spread = std::string_view(key) == "spread" || std::string_view(key) == "deviation";
    *places[k] = map.required(key, dimension_of_key(key, *wanted),
                              spread ? base::range::not_negative : base::range::any);
  }
  distribution.not_below = map.number_or("not_below", *wanted, base::range::any, distribution.not_below);
  distribution.not_above = map.number_or("not_above", *wanted, base::range::any, distribution.not_above);
  if (map.reading().problems.error_count() > before) return distribution;
  try {
    statistics::quantile(distribution, 0.5);
  } catch (const std::domain_error& error) {
    map.error("kind", std::string("makes no distribution: ") + error.what());
  }
  return distribution;
}

Draws read_draws(input::MapReader& plan, const scenario::Scenario& scenario, const input::YamlValue& tree,
                 const input::Library& library, bool usually_alike) {
  Draws draws;
  input::MapReader map = plan.map("draws");
  draws.runs = map.whole_number("runs", 1, most_draws).value_or(1);
  draws.same_for_every_point = map.yes_or_no("same_for_every_point").value_or(usually_alike);
  if (const auto random_events = map.choice("chance", {"expected", "drawn"}))
    draws.random_events_drawn = *random_events == 1;
  read_values(map, scenario, tree, draws);
  if (scenario.learned) draws.together = root_of_values(scenario.learned->together, draws.values);
  if (map.has("layers")) draws.layers = read_layers(map.map("layers"));
  const auto& items = map.list("lenses");
  for (std::size_t i = 0; i < items.size(); ++i) {
    draws.lenses.push_back(read_lenses(
        input::MapReader(items[i], "draws.lenses." + std::to_string(i), plan.reading(), map.location()),
        scenario, library));
  }
  map.finish();
  const bool anything = !draws.values.empty() || draws.layers || !draws.lenses.empty() ||
                        draws.random_events_drawn.value_or(scenario.random_events.drawn);
  if (draws.runs > 1 && !anything) {
    map.error("runs", "repeats every point, but nothing is drawn: all repeats would be the same");
  }
  return draws;
}

}  // namespace dullcast::sweep
