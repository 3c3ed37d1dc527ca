#include "engine/input/learned_reader.hpp"

#include <Eigen/Eigenvalues>
#include <algorithm>

#include "engine/input/bit_reader.hpp"
#include "engine/input/quantity_reader.hpp"
#include "engine/input/record_sections.hpp"
#include "engine/input/text_file.hpp"
#include "engine/scenario/number_fields.hpp"

namespace dullcast::input {
namespace {

// An abrasion coefficient is an order of magnitude to begin with; six of them are more than any bit can
// teach.
constexpr base::Range moved_range{1e-6, 1e6, true, "from 1e-6 to 1e6"};
constexpr std::size_t most_together = 1000;  // the library has some hundred numbers

/// Rows of a lower triangle, the diagonal included.
void read_correlation(MapReader& map, scenario::NumbersTogether& together) {
  const auto count = static_cast<Eigen::Index>(together.names.size());
  together.correlation = Eigen::MatrixXd::Identity(count, count);
  const std::vector<YamlValue>& rows = map.list("correlation");
  if (rows.size() != together.names.size()) {
    map.error("correlation", "has " + std::to_string(rows.size()) + " rows for " +
                                 std::to_string(together.names.size()) + " numbers; write one a number");
    return;
  }
  constexpr base::Range share{-1.0, 1.0, true, "from -1 to 1"};
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const std::string path = map.path_of("correlation") + "." + std::to_string(i);
    if (!rows[i].is_list() || rows[i].items.size() != i + 1) {
      map.reading().problems.error(rows[i].location, path,
                                   "is no list of " + std::to_string(i + 1) +
                                       " values; row k holds the k values up to its own, which is 1");
      continue;
    }
    for (std::size_t j = 0; j <= i; ++j) {
      const auto value = read_number(rows[i].items[j], path + "." + std::to_string(j),
                                     base::dimension::number, share, map.reading());
      const auto a = static_cast<Eigen::Index>(i), b = static_cast<Eigen::Index>(j);
      if (value) together.correlation(a, b) = together.correlation(b, a) = *value;
      if (value && i == j && *value != 1.0)
        map.reading().problems.error(rows[i].items[j].location, path,
                                     "does not end with 1, as each number does with itself");
    }
  }
}

void read_together(MapReader map, scenario::NumbersTogether& together) {
  const std::vector<YamlValue>& names = map.list("numbers");
  if (names.size() > most_together) {
    map.error("numbers", "holds more than " + std::to_string(most_together) + " names");
    return map.finish();
  }
  const std::size_t errors_before = map.reading().problems.error_count();
  for (const YamlValue& name : names) {
    if (!name.is_scalar() || !scenario::kind_of_number(name.text)) {
      map.reading().problems.error(name.location, map.path_of("numbers"),
                                   quoted_text(name.text) +
                                       " is no number of the library; write one such as abrasion_coefficient "
                                       "or \"rock sandstone: cerchar_abrasivity\"");
      continue;
    }
    together.names.push_back(name.text);
  }
  if (together.names.size() == names.size()) read_correlation(map, together);
  map.finish();
  if (map.reading().problems.error_count() != errors_before || names.empty()) return;
  // Rounded to the digits that are written, an exact 0 may come out below it.
  constexpr double least = -1e-6;
  const Eigen::SelfAdjointEigenSolver<Eigen::MatrixXd> parts(together.correlation, Eigen::EigenvaluesOnly);
  if (!(parts.eigenvalues().minCoeff() > least))
    map.error("correlation", "is no correlation: no numbers can go together so");
}

bool has_record(const Library& library, std::string_view section, const std::string& name) {
  if (section == "rocks") return library.rocks.contains(name);
  if (section == "grades") return library.grades.contains(name);
  if (section == "lots") return library.lots.contains(name);
  if (section == "bodies") return library.bodies.contains(name);
  return library.fluids.contains(name);
}

/// Takes out of a learned map the records that the library does not have: numbers of records that scenarios
/// make for themselves, which wait until one does.
std::vector<scenario::LearnedNumber> take_others_numbers(YamlValue& root, const std::string& path,
                                                         const Library& library, Reading& reading) {
  std::vector<scenario::LearnedNumber> numbers;
  for (YamlEntry& section : root.entries) {
    const auto place = std::find_if(record_sections.begin(), record_sections.end(),
                                    [&](const RecordSection& one) { return section.key == one.key; });
    if (place == record_sections.end() || !section.value.is_map()) continue;
    for (const YamlEntry& record : section.value.entries) {
      if (has_record(library, section.key, record.key) || !record.value.is_map()) continue;
      for (const YamlEntry& number : record.value.entries) {
        const std::string name = std::string(place->word) + " " + record.key + ": " + number.key;
        const std::string at = path + section.key + "." + record.key + "." + number.key;
        const auto kind = scenario::kind_of_number(name);
        if (!kind) {
          reading.problems.error(number.location, at, "is no number of such a record");
          continue;
        }
        const auto now = read_quantity(number.value, at, *kind->wanted, kind->range, false, reading);
        if (now) numbers.push_back({name, *now});
      }
    }
    std::erase_if(section.value.entries, [&](const YamlEntry& record) {
      return record.value.is_map() && !has_record(library, section.key, record.key);
    });
  }
  return numbers;
}

scenario::Learned read_map(YamlValue root, const std::string& path, const scenario::Location& place,
                           Reading& reading, Library& library) {
  scenario::Learned learned;
  learned.numbers = take_others_numbers(root, path.empty() ? "" : path + ".", library, reading);
  MapReader map(root, path, reading, place);
  learned.shelf = map.word("shelf").value_or("");
  learned.made = map.word("made").value_or("");
  if (!map.has("inspected_bits"))
    map.error("inspected_bits", "is missing; write on how many inspected bits these numbers rest");
  learned.bits = map.whole_number("inspected_bits", 1, 1000000).value_or(1);
  learned.coefficient_factor = map.number_or("coefficient_factor", base::dimension::number, moved_range, 1.0);
  read_own_entries(map, library);
  map.find("together");
  if (map.has("together")) read_together(map.map("together"), learned.together);
  map.finish();
  return learned;
}

}  // namespace

std::optional<scenario::Learned> read_learned(MapReader& scenario, const std::string& folder,
                                              Library& library) {
  const YamlValue* value = scenario.find("learned");
  if (!value) return std::nullopt;
  if (value->is_map())
    return read_map(*value, scenario.path_of("learned"), scenario.place("learned"), scenario.reading(),
                    library);
  const auto path = scenario.word("learned");
  if (!path) return std::nullopt;
  const std::string file = path_beside(*path, folder);
  try {
    const YamlValue root = parse_yaml(read_text_file(file), file, scenario.reading().problems);
    if (!root.is_map()) {
      if (!scenario.reading().problems.any_error())
        scenario.error("learned", "names " + file + ", which holds " + kind_name(root) +
                                      "; a file that was learnt is a map of keys such as models: and rocks:");
      return std::nullopt;
    }
    scenario::Learned learned = read_map(root, "", {file, 1, 1}, scenario.reading(), library);
    learned.file = file;
    return learned;
  } catch (const ScenarioErrors& failure) {
    scenario.error("learned", "cannot be used: " + failure.messages().front());
    return std::nullopt;
  }
}

scenario::Learned read_learned_file(const std::string& file, const UnitParser& units, Library library) {
  Problems problems;
  Reading reading{units, problems};
  const YamlValue root = parse_yaml(read_text_file(file), file, problems);
  problems.throw_if_any();
  scenario::Learned learned = read_map(root, "", {file, 1, 1}, reading, library);
  problems.throw_if_any();
  learned.file = file;
  return learned;
}

namespace {

template <class Record>
void put_into(std::map<std::string, Record, std::less<>>& records, const char* prefix,
              const std::vector<scenario::LearnedNumber>& numbers) {
  for (auto& [name, record] : records) {
    for (const auto& field : scenario::number_fields(record)) {
      scenario::Quantity& own = record.*field.member;
      if (!(own.low < own.high)) continue;  // certain to the scenario
      for (const scenario::LearnedNumber& number : numbers)
        if (number.name == prefix + name + ": " + field.key) own = number.now;
    }
  }
}

}  // namespace

void put_learned(const scenario::Learned& learned, Library& library) {
  if (learned.numbers.empty()) return;
  put_into(library.rocks, "rock ", learned.numbers);
  put_into(library.grades, "grade ", learned.numbers);
  put_into(library.lots, "lot ", learned.numbers);
  put_into(library.bodies, "body ", learned.numbers);
  put_into(library.fluids, "fluid ", learned.numbers);
}

}  // namespace dullcast::input
