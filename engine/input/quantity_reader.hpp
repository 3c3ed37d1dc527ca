#pragma once

#include <optional>
#include <string>

#include "engine/input/map_reader.hpp"
#include "engine/scenario/number_fields.hpp"

namespace dullcast::input {

/// Reads one uncertain number: "50 MPa" (low = central = high, marked given) or a map of low, central, high,
/// source and mark. In a library (`complete`) all five are required; elsewhere low and high default to
/// central, the mark to given. Checks the range and low <= central <= high. Nothing when there is an error,
/// which is reported.
std::optional<scenario::Quantity> read_quantity(const YamlValue& value, const std::string& path,
                                                const base::Dimension& wanted, const base::Range& range,
                                                bool complete, Reading& reading);

/// Reads every number of a record that the map gives, over what the record holds. With `complete`, a missing
/// one is an error. `usually`, where given, has more to say of a number that is refused.
template <class Record>
void read_numbers(MapReader& map, Record& record, bool complete,
                  const std::function<std::string(const char* key)>& usually = {}) {
  for (const auto& field : scenario::number_fields(record)) {
    if (const YamlValue* value = map.uncertain(field.key, *field.wanted, field.range)) {
      if (const auto read = read_quantity(*value, map.path_of(field.key), *field.wanted, field.range,
                                          complete, map.reading())) {
        record.*field.member = *read;
      } else if (usually) {
        map.reading().problems.say_more(usually(field.key));
      }
    } else if (complete) {
      map.error(field.key,
                "is missing; write {low: , central: , high: , source: , mark: } with values such as " +
                    std::string(field.wanted->examples));
    }
  }
}

}  // namespace dullcast::input
