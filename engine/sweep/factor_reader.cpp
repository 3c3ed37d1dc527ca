#include "engine/sweep/factor_reader.hpp"

#include <algorithm>
#include <boost/tokenizer.hpp>
#include <set>
#include <sstream>

#include "engine/base/plain_text.hpp"
#include "engine/base/words.hpp"
#include "engine/input/any_quantity.hpp"
#include "engine/input/yaml_paths.hpp"
#include "engine/sweep/factor_value.hpp"
#include "engine/sweep/unmoved_paths.hpp"

namespace dullcast::sweep {
namespace {

constexpr int most_steps = 100'000;

bool is_name(const std::string& word) {
  return !word.empty() && !std::isdigit(static_cast<unsigned char>(word.front())) &&
         word.find_first_not_of("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789_") ==
             word.npos;
}

void read_values(input::MapReader& map, FactorTarget& target, bool by_table) {
  target.currency = map.reading().currency;
  const bool listed = map.has("values"), ranged = map.has("from") || map.has("to");
  if (by_table) {
    if (listed || ranged) map.error("", "states values, but the design's table does; keep one of them");
    for (const char* key : {"values", "from", "to"}) map.find(key);
    return;
  }
  if (listed == ranged) {
    map.error("",
              "needs its values: write values: [70 rpm, 85 rpm, 100 rpm], or from: 70 rpm and to: 100 rpm");
    for (const char* key : {"values", "from", "to"}) map.find(key);
    return;
  }
  if (listed) {
    const auto& items = map.list("values");
    if (items.empty()) map.error("values", "is empty; write at least one value");
    for (std::size_t i = 0; i < items.size(); ++i) {
      const std::string path = map.path_of("values") + "." + std::to_string(i);
      if (!items[i].is_scalar()) {
        map.reading().problems.error(items[i].location, path,
                                     "is " + input::kind_name(items[i]) + "; write one value or word");
        continue;
      }
      add_value(items[i].text, items[i].location, path, map.reading(), target, target.values);
    }
    return;
  }
  std::vector<double> ends;
  for (const char* key : {"from", "to"}) {
    if (const auto text = map.word(key)) {
      add_value(*text, map.place(key), map.path_of(key), map.reading(), target, ends);
    } else {
      map.error(key, "is missing; a range needs from: and to:");
    }
  }
  if (ends.size() != 2) return;
  if (!target.dimension) {
    map.error("from", "is a word; a range goes between two values, so list words under values:");
    return;
  }
  target.from = ends[0];
  target.to = ends[1];
  if (!(target.from != target.to)) map.error("to", "is the same as from:; write values: with one value");
}

/// What the scenario has at each path of a target that scales it.
void read_base(input::MapReader& map, const input::YamlValue& scenario, FactorTarget& target) {
  if (target.dimension && target.dimension->rule != base::UnitRule::number) {
    map.error("", "multiplies what the scenario has, so its values are plain numbers such as 0.8 and 1.2");
  }
  if (!target.words.empty()) map.error("", "multiplies what the scenario has, and a word cannot");
  std::vector<std::string> kept;
  const base::Dimension* dimension = nullptr;
  for (const std::string& path : target.paths) {
    const input::YamlValue* value = input::value_at(scenario, path);
    if (!value || !value->is_scalar()) continue;  // plan.*.holdback: only where there is one
    const auto base = input::value_of_any_kind(map.reading().units, value->text, map.reading().currency);
    if (!base) {
      map.error("path", "leads to \"" + value->text + "\", which cannot be multiplied");
      continue;
    }
    if (base->dimension->rule == base::UnitRule::temperature) {
      map.error("path", "leads to a temperature, whose zero is a matter of scale; state values instead");
    }
    if (!dimension) dimension = base->dimension;
    if (dimension != base->dimension) {
      map.error("path", "leads to values of different kinds, " + std::string(dimension->name) + " and " +
                            base->dimension->name);
    }
    kept.push_back(path);
    target.base.push_back(base->value);
  }
  if (kept.empty()) {
    map.error("path", "leads to nothing that the scenario states, so there is nothing to multiply");
  }
  target.paths = kept;
  target.dimension = dimension;
}

FactorTarget read_target(input::MapReader& map, const std::string& name, const input::YamlValue& scenario,
                         bool by_table) {
  FactorTarget target;
  target.name = name;
  if (const auto path = map.word("path")) {
    target.paths = opened_paths(map, "path", *path, scenario);
  } else if (map.has("paths")) {
    for (const input::YamlValue& item : map.list("paths")) {
      if (!item.is_scalar()) continue;
      for (std::string& path : opened_paths(map, "paths", item.text, scenario)) target.paths.push_back(path);
    }
  } else {
    map.error("path", "is missing; write which value of the scenario this moves, such as path: plan.0.flow");
  }
  target.scales = map.yes_or_no("multiply").value_or(false);
  read_values(map, target, by_table);
  if (target.scales) read_base(map, scenario, target);
  return target;
}

void check_together(input::MapReader& map, Factor& factor) {
  factor.listed = !factor.targets.front().values.empty();
  const std::size_t levels = factor.targets.front().values.size();
  for (const FactorTarget& target : factor.targets) {
    if (target.values.size() == levels) continue;
    map.error("linked", "moves " + factor.targets.front().name + " and " + target.name +
                            " together, so both need as many values, or both a range");
    return;
  }
  if (factor.listed) factor.levels = levels;
  const auto steps = map.whole_number("steps", 2, most_steps);
  if (steps && factor.listed) map.error("steps", "belongs to a range; here the values are listed");
  if (steps && !factor.listed) factor.levels = static_cast<std::size_t>(*steps);
}

}  // namespace

std::vector<std::string> opened_paths(input::MapReader& map, std::string_view key, const std::string& path,
                                      const input::YamlValue& scenario) {
  std::vector<std::string> paths = input::open_stars(scenario, path);
  if (paths.empty()) map.error(key, "has a * where the scenario has no list with items");
  for (const std::string& open : paths) {
    const std::string why_not = why_not_moved(open);
    if (!why_not.empty()) map.error(key, open + " " + why_not);
    if (makes_no_difference(open))
      map.warn(key, "moves " + open + ", on which nothing that a sweep keeps depends");
  }
  return paths;
}

std::vector<Factor> read_factors(input::MapReader& plan, const input::YamlValue& scenario,
                                 DesignKind design) {
  std::vector<Factor> factors;
  std::set<std::string> names, paths;
  const auto& items = plan.list("factors");
  for (std::size_t i = 0; i < items.size(); ++i) {
    input::MapReader map(items[i], "factors." + std::to_string(i), plan.reading(), plan.location());
    Factor factor;
    factor.name = map.word("name").value_or("");
    if (!is_name(factor.name)) {
      map.error("name",
                "is needed to head its column; write letters, digits and low lines, such as name: speed");
    }
    const bool by_table = design == DesignKind::table;
    if (map.has("linked")) {
      const auto& linked = map.list("linked");
      for (std::size_t k = 0; k < linked.size(); ++k) {
        input::MapReader part(linked[k], map.path_of("linked") + "." + std::to_string(k), plan.reading(),
                              map.location());
        const std::string own = part.word("name").value_or(factor.name + "_" + std::to_string(k + 1));
        factor.targets.push_back(read_target(part, own, scenario, by_table));
        part.finish();
      }
      if (linked.empty()) map.error("linked", "is empty; list what moves together");
    } else {
      factor.targets.push_back(read_target(map, factor.name, scenario, by_table));
    }
    if (!factor.targets.empty()) check_together(map, factor);
    if (design == DesignKind::grid && !factor.listed && factor.levels == 0 && !factor.targets.empty()) {
      map.error("steps", "is missing: a grid needs to know how many values to take between from: and to:");
    }
    map.finish();
    for (const FactorTarget& target : factor.targets) {
      if (!names.insert(target.name).second)
        map.error("name", "\"" + target.name + "\" heads another column");
      for (const std::string& path : target.paths) {
        if (!paths.insert(path).second) map.error("path", path + " is moved by another factor as well");
      }
    }
    factors.push_back(std::move(factor));
  }
  return factors;
}

void read_design_table(const std::string& text, const std::string& file, input::Reading& reading,
                       std::vector<Factor>& factors, DesignChoice& design) {
  std::vector<FactorTarget*> targets;
  for (Factor& factor : factors) {
    factor.listed = true;
    for (FactorTarget& target : factor.targets) targets.push_back(&target);
  }
  std::vector<FactorTarget*> columns;
  std::vector<std::string> units;
  if (!input::check_utf8(text, file, reading.problems)) return;
  std::istringstream lines(text);
  std::string line;
  for (int number = 1; std::getline(lines, line); ++number) {
    if (!line.empty() && line.back() == '\r') line.pop_back();
    if (line.find_first_not_of(" \t") == line.npos) continue;
    std::vector<std::string> cells;
    try {
      for (const std::string& cell : boost::tokenizer<boost::escaped_list_separator<char>>(line)) {
        const auto first = cell.find_first_not_of(" \t"), last = cell.find_last_not_of(" \t");
        cells.push_back(first == cell.npos ? "" : cell.substr(first, last - first + 1));
      }
    } catch (const boost::escaped_list_error& error) {
      reading.problems.error({file, number, 1}, "",
                             "is no line of comma-separated values (" + std::string(error.what()) + ")");
      return;
    }
    if (columns.empty()) {
      for (const std::string& cell : cells) {
        const std::size_t bracket = cell.find('[');
        std::string name = cell.substr(0, bracket);
        while (!name.empty() && name.back() == ' ') name.pop_back();
        units.push_back(bracket == cell.npos ? "" : cell.substr(bracket + 1, cell.find(']') - bracket - 1));
        const auto found =
            std::find_if(targets.begin(), targets.end(), [&](FactorTarget* t) { return t->name == name; });
        if (found == targets.end()) {
          std::vector<std::string> known;
          for (const FactorTarget* target : targets) known.push_back(target->name);
          reading.problems.error({file, number, 1}, name,
                                 "is no factor of the plan; they are " + base::one_of(known));
          return;
        }
        columns.push_back(*found);
      }
      for (FactorTarget* target : targets) {
        if (std::count(columns.begin(), columns.end(), target) == 1) continue;
        reading.problems.error({file, number, 1}, target->name,
                               "has no column, or two; the table needs one for every factor");
        return;
      }
      continue;
    }
    if (cells.size() != columns.size()) {
      reading.problems.error({file, number, 1}, "",
                             "has " + std::to_string(cells.size()) + " cells under " +
                                 std::to_string(columns.size()) + " headings");
      return;
    }
    std::vector<double> row(targets.size());
    for (std::size_t k = 0; k < cells.size(); ++k) {
      std::vector<double> value;
      const std::string text = units[k].empty() ? cells[k] : cells[k] + " " + units[k];
      FactorTarget scaled;  // the numbers of a multiplier are plain, whatever they multiply
      FactorTarget& like = columns[k]->scales ? scaled : *columns[k];
      // Once a row has settled of what kind the values are, they need not be tried as all others again.
      if (!units[k].empty() && !like.dimension &&
          !input::value_of_any_kind(reading.units, text, reading.currency)) {
        reading.problems.error({file, number, 1}, columns[k]->name, "\"" + text + "\" is no value");
        return;
      }
      add_value(text, {file, number, 1}, columns[k]->name, reading, like, value);
      const auto place = std::find(targets.begin(), targets.end(), columns[k]) - targets.begin();
      if (!value.empty()) row[static_cast<std::size_t>(place)] = value.front();
    }
    design.rows.push_back(std::move(row));
  }
  if (design.rows.empty()) reading.problems.error({file, 1, 1}, "", "holds no cases below its heading");
}

}  // namespace dullcast::sweep
