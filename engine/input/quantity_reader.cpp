#include "engine/input/quantity_reader.hpp"

#include "engine/base/words.hpp"

namespace dullcast::input {

std::optional<scenario::Quantity> read_quantity(const YamlValue& value, const std::string& path,
                                                const base::Dimension& wanted, const base::Range& range,
                                                bool complete, Reading& reading) {
  if (!value.is_map()) {
    if (complete) {
      reading.problems.error(
          value.location, path,
          "is " + kind_name(value) + "; a library number is {low: , central: , high: , source: , mark: }");
      return std::nullopt;
    }
    const auto number = read_number(value, path, wanted, range, reading);
    if (!number) return std::nullopt;
    return scenario::Quantity{*number, *number, *number, "given", "the scenario"};
  }
  const std::size_t errors_before = reading.problems.error_count();
  MapReader map(value, path, reading);
  scenario::Quantity result;
  result.central = map.required("central", wanted, range);
  result.low =
      complete ? map.required("low", wanted, range) : map.number_or("low", wanted, range, result.central);
  result.high =
      complete ? map.required("high", wanted, range) : map.number_or("high", wanted, range, result.central);
  const std::vector<std::string> mark_words(std::begin(scenario::marks), std::end(scenario::marks));
  if (const auto mark = map.choice("mark", mark_words)) {
    result.mark = mark_words[*mark];
  } else if (!map.has("mark")) {
    result.mark = "given";
    if (complete) map.error("mark", "is missing; write mark: " + base::one_of(mark_words));
  }
  result.source = map.remark("source").value_or(complete ? "" : "the scenario");
  if (complete && result.source.empty() && !map.has("source")) {
    map.error("source", "is missing; name the paper, handbook or reason behind the number");
  }
  map.finish();
  if (reading.problems.error_count() != errors_before) return std::nullopt;
  if (!(result.low <= result.central && result.central <= result.high)) {
    map.error("central", "does not lie between low and high; write low <= central <= high");
    return std::nullopt;
  }
  return result;
}

}  // namespace dullcast::input
